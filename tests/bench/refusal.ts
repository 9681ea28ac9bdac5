/** Thrown for what the one at the terminal can mend: a sentence, and exit code 2. */
export class BadRequest extends Error {}
