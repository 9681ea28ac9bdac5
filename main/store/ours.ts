import { open } from 'node:fs/promises';
import { codeOf, messageOf, type Refusal, refusal } from '../refusal';
import { STORE_VERSION } from './migrations';

/** `Nlsh` in ASCII, at offset 68 of the file: SQLite database file format, section 1.3. */
export const APPLICATION_ID = 0x4e6c7368;

const HEADER_BYTES = 100;
const USER_VERSION_AT = 60;
const APPLICATION_ID_AT = 68;

/**
 * Reads the file's header without SQLite, so that a file of another program is not even opened for writing. True if it
 * is a shop of ours, false if there is nothing there yet; throws a Refusal for everything else.
 */
export async function isOurShop(file: string): Promise<boolean> {
  const header = await readHeader(file);
  if (header === null || header.length === 0) return false;
  if (header.toString('latin1', 0, 16) !== 'SQLite format 3\0' || header.length < HEADER_BYTES) {
    throw refusal('not-a-database', `${file} is not a database. ${LEFT_ALONE}`);
  }
  if (header.readUInt32BE(APPLICATION_ID_AT) !== APPLICATION_ID) {
    throw refusal('foreign-database', `${file} is the database of another program. ${LEFT_ALONE}`);
  }
  const version = header.readUInt32BE(USER_VERSION_AT);
  if (version > STORE_VERSION) throw newerThanThis(file, version);
  return true;
}

const LEFT_ALONE = 'It was left as it is; move it away, or choose another folder with --data or NIGHTLOAD_DATA.';

export function newerThanThis(file: string, version: number): Refusal {
  return refusal(
    'newer-database',
    `${file} was written by a newer Nightload (version ${version} of the file, this program knows ${STORE_VERSION}). ` +
      'It was left as it is; update the program, or choose another folder with --data or NIGHTLOAD_DATA.',
  );
}

async function readHeader(file: string): Promise<Buffer | null> {
  try {
    const handle = await open(file, 'r');
    try {
      const { buffer, bytesRead } = await handle.read(Buffer.alloc(HEADER_BYTES), 0, HEADER_BYTES, 0);
      return buffer.subarray(0, bytesRead);
    } finally {
      await handle.close();
    }
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return null;
    if (codeOf(error) === 'EISDIR') throw refusal('not-a-database', `${file} is a folder. ${LEFT_ALONE}`);
    throw refusal(
      'unreadable-database',
      `${file} can't be read (${messageOf(error)}). Give this user the right to it.`,
    );
  }
}
