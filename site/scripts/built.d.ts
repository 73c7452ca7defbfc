/** What the build writes into built.js: what the scripts must know of it. */
export const BUILT: {
  folder: string;
  lock: Record<string, string>;
  known: { question: string; crc32: number }[];
};
