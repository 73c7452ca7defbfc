/** What the build bundles into decoder.js: the text of a code (ISO/IEC 18004) in an image. Throws where there is none. */
export function decodeQR(image: ImageData, options?: { timeLimit?: number; effort?: number }): string;
