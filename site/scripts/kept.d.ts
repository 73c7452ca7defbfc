// What the build puts in front of the keeper.
declare const KEPT: { version: string; packs: Record<string, [path: string, type: string, length: number][]> };
