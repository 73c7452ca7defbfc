/** What is said while the phone itself fills a field: site/senses.json, made a script by the build. */
export const WORDS: Record<string, string>;
