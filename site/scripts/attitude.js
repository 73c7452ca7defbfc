// How a phone lies, from the three angles that it tells: rotations and vectors, nothing of any page.
//
// Frames as in the W3C's DeviceOrientation Event Specification: the earth's x is east, y north, z up; the phone's x is
// to the right of its screen, y to the top of it, z out of it. Angles are in degrees. The phone may lean: what it
// takes for the line out of its own back is `back`, a unit vector in the frame that its sensors keep.

/** @typedef {[number, number, number]} Vector */
/** @typedef {[Vector, Vector, Vector]} Matrix  rows */

const RADIANS = Math.PI / 180;

/** The line out of the screen of a phone that does not lean.  @type {Vector} */
export const STRAIGHT = [0, 0, 1];

/**
 * Turns the phone's own vectors into the earth's: about z by alpha, then about the new x by beta, the new y by gamma.
 * @param {number} alpha
 * @param {number} beta
 * @param {number} gamma
 * @returns {Matrix}
 */
export function rotation(alpha, beta, gamma) {
  const [sa, sb, sg] = [alpha, beta, gamma].map((angle) => Math.sin(angle * RADIANS));
  const [ca, cb, cg] = [alpha, beta, gamma].map((angle) => Math.cos(angle * RADIANS));
  return [
    [ca * cg - sa * sb * sg, -sa * cb, ca * sg + sa * sb * cg],
    [sa * cg + ca * sb * sg, ca * cb, sa * sg - ca * sb * cg],
    [-cb * sg, sb, cb * cg],
  ];
}

/**
 * Alpha, counter-clockwise from north, where the browser tells the heading of the phone's top instead. A phone whose
 * top points within 15° of straight up or down has no such heading.
 * @param {number} heading
 * @param {number} beta
 */
export function alphaOf(heading, beta) {
  const level = Math.cos(beta * RADIANS);
  if (Math.abs(level) < Math.sin(15 * RADIANS)) return NaN;
  return level > 0 ? -heading : 180 - heading;
}

/** @param {Vector} a @param {Vector} b */
const dot = (a, b) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

/** @param {Vector} a @param {Vector} b @returns {Vector} */
const cross = (a, b) => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];

/** @param {Vector} a @param {Vector} b @returns {Vector} */
const plus = (a, b) => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];

/** @param {Vector} a @returns {Vector} */
function unit(a) {
  const length = Math.sqrt(dot(a, a));
  return [a[0] / length, a[1] / length, a[2] / length];
}

/** The angle between two vectors, right to the last figure for small ones too.  @param {Vector} a @param {Vector} b */
export function between(a, b) {
  const across = cross(a, b);
  return Math.atan2(Math.sqrt(dot(across, across)), dot(a, b)) / RADIANS;
}

/** Which way is up, as the phone's sensors see it.  @param {Matrix} turned */
export const upIn = (turned) => unit(turned[2]);

/** The line out of the plane on which the phone lies, in the earth's frame.  @param {Matrix} turned @param {Vector} back @returns {Vector} */
const normal = (turned, back) => unit([dot(turned[0], back), dot(turned[1], back), dot(turned[2], back)]);

/** The tilt of that plane from flat, 0 to 180.  @param {Matrix} turned @param {Vector} [back] */
export const tilt = (turned, back = STRAIGHT) => between(upIn(turned), back);

/**
 * The heading that the plane faces, 0 to 360 clockwise from north: downhill. Its steepest ascent is opposite.
 * @param {Matrix} turned
 * @param {Vector} [back]
 */
export function facing(turned, back = STRAIGHT) {
  const [east, north] = normal(turned, back);
  return (Math.atan2(east, north) / RADIANS + 360) % 360;
}

/** The steepest ascent of that plane, 0 to 360 clockwise from north.  @param {Matrix} turned @param {Vector} [back] */
export const ascent = (turned, back = STRAIGHT) => (facing(turned, back) + 180) % 360;

/** By how much the phone was turned about its own back between two readings, 0 to 180.  @param {Matrix} first @param {Matrix} second */
export function turnBetween(first, second) {
  const column = (/** @type {Matrix} */ turned, /** @type {0 | 1 | 2} */ place) => /** @type {Vector} */ ([turned[0][place], turned[1][place], turned[2][place]]);
  const [x, y, wasX, wasY] = [column(second, 0), column(second, 1), column(first, 0), column(first, 1)];
  return Math.abs(Math.atan2(dot(wasY, x) - dot(wasX, y), dot(wasX, x) + dot(wasY, y))) / RADIANS;
}

/**
 * Two readings on one spot, the phone turned end for end between them. Half the sum of what it took for up is the
 * line out of its back, half the difference the slope: whatever its sensors lean by is in both and falls out.
 * @param {Matrix} first
 * @param {Matrix} second
 * @returns {{ slope: number, back: Vector, lean: number }}  degrees; lean is the phone's own error
 */
export function endForEnd(first, second) {
  const back = unit(plus(upIn(first), upIn(second)));
  return { slope: between(upIn(first), back), back, lean: between(back, STRAIGHT) };
}

/**
 * The mean of readings, and how far the farthest of them lies from it: by its tilt in any way, and by its heading.
 * @param {Matrix[]} readings
 * @returns {{ mean: Matrix, spread: number, swing: number }}  degrees
 */
export function meanOf(readings) {
  const rows = [0, 1, 2].map((row) => readings.map((turned) => turned[row]).reduce(plus));
  const mean = /** @type {Matrix} */ (rows.map((row) => row.map((sum) => sum / readings.length)));
  const swings = readings.map((turned) => Math.abs(((facing(turned) - facing(mean) + 540) % 360) - 180));
  return { mean, spread: Math.max(...readings.map((turned) => between(upIn(turned), upIn(mean)))), swing: Math.max(...swings) };
}

/** A slope in degrees as a grade in per cent, rounded up to the next half: a phone tells a tenth of a degree at best.  @param {number} slope */
export const gradeOf = (slope) => Math.ceil(200 * Math.tan(slope * RADIANS) - 1e-6) / 2;
