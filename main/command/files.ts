import { readFile, writeFile } from 'node:fs/promises';
import { readPlanText, readShopText } from '../../core/exchange';
import { demoShop, type Plan, type Result, type Shop } from '../../core/shop';
import { addDays, WEEKDAYS, weekdayOf } from '../../core/time';
import { codeOf, messageOf, Refusal, refusal } from '../refusal';

/** The text of a file named on the command line; what hinders reading it is a Refusal with a remedy. */
export async function readTextFile(file: string): Promise<string> {
  let bytes: Buffer;
  try {
    bytes = await readFile(file);
  } catch (error) {
    switch (codeOf(error)) {
      case 'ENOENT':
        throw refusal('no-file', `There is no file ${file}; check its name and folder.`);
      case 'EISDIR':
        throw refusal('is-folder', `${file} is a folder; name a file in it.`);
      default:
        throw refusal('unreadable', `${file} can't be read (${messageOf(error)}); give this user the right to it.`);
    }
  }
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw refusal('not-text', `${file} is no text file in UTF-8; choose another, or save it as UTF-8.`);
  }
}

/** Writes a new file; one that is there already is kept unless `overwrite`. */
export async function writeTextFile(file: string, text: string, overwrite: boolean): Promise<void> {
  try {
    await writeFile(file, text, { flag: overwrite ? 'w' : 'wx' });
  } catch (error) {
    if (codeOf(error) === 'EEXIST') {
      throw refusal('file-exists', `${file} is there already and was kept; choose another name, or add --force.`);
    }
    throw refusal('unwritable', `${file} can't be written (${messageOf(error)}); choose another place.`);
  }
}

/** The value read from a file, or a Refusal whose every sentence names the file. */
export function readFrom<T>(file: string, read: Result<T>): T {
  if (read.ok) return read.value;
  throw new Refusal(read.faults.map((fault) => ({ ...fault, say: `${file}: ${fault.say}` })));
}

export async function readPlanFile(file: string): Promise<Plan> {
  return readFrom(file, readPlanText(await readTextFile(file)));
}

export async function readShopFile(file: string): Promise<Shop> {
  return readFrom(file, readShopText(await readTextFile(file)));
}

/** The demo shop, which begins on a Monday, of the week of a local time. */
export function demoShopOf(at: string): Shop {
  const date = at.slice(0, 10);
  return demoShop(addDays(date, -WEEKDAYS.indexOf(weekdayOf(date))));
}
