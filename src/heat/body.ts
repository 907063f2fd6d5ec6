/** Sizes of a piece: worked out where the file is read, and used here as they come. */
export { type Body, bodyOf, type Sizes, surfaceOf, volumeOf } from '../problem/body.js';
