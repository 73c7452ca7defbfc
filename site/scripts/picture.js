// Reads a code off a picture, from a file or as the camera just took it. The picture stays here: it is looked at, and
// only the text in it goes on. What the text means, Python knows.

/** No picture is looked at finer than this; a code is found now in the whole, now in a coarser one. */
const FINEST = 2048;
const COARSER = [1, 0.7, 0.5];
/** How long one look may take, in milliseconds, and how hard it may try. */
const LOOK = { timeLimit: 1_500, effort: 16 };

/**
 * The text of the code in a picture; "" where none is found. Throws where the file is no picture.
 * @param {Blob} picture
 * @returns {Promise<string>}
 */
export async function textIn(picture) {
  const { decodeQR } = await import("./decoder.js");
  const bitmap = await createImageBitmap(picture);
  const whole = Math.min(1, FINEST / Math.max(bitmap.width, bitmap.height));
  for (const part of COARSER) {
    try {
      return decodeQR(pixels(bitmap, whole * part), LOOK);
    } catch {
      // nothing to be read at this size
    }
  }
  return "";
}

/**
 * On white, for what is see-through in a picture would count as black.
 * @param {ImageBitmap} bitmap
 * @param {number} scale
 */
function pixels(bitmap, scale) {
  const canvas = document.createElement("canvas");
  canvas.width = Math.max(1, Math.round(bitmap.width * scale));
  canvas.height = Math.max(1, Math.round(bitmap.height * scale));
  const drawing = /** @type {CanvasRenderingContext2D} */ (canvas.getContext("2d", { willReadFrequently: true }));
  drawing.fillStyle = "#fff";
  drawing.fillRect(0, 0, canvas.width, canvas.height);
  drawing.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
  return drawing.getImageData(0, 0, canvas.width, canvas.height);
}
