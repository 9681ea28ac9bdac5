import { readFile, realpath } from 'node:fs/promises';
import { extname, join, sep } from 'node:path';

/** The screens' files, for both carriers: with the headers that keep a page from reaching anything but its own seat. */
export interface Page {
  readonly status: number;
  readonly headers: Readonly<Record<string, string>>;
  readonly body: Buffer | string;
}

const CONTENT_POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' data: blob:",
  "font-src 'self'",
  "connect-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join('; ');

export const SECURITY_HEADERS: Readonly<Record<string, string>> = {
  'content-security-policy': CONTENT_POLICY,
  'x-content-type-options': 'nosniff',
  'x-frame-options': 'DENY',
  'referrer-policy': 'no-referrer',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-resource-policy': 'same-origin',
  'cache-control': 'no-store',
};

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.ico': 'image/x-icon',
  '.woff2': 'font/woff2',
};

/** A page that only says something. */
export function plainPage(status: number, say: string): Page {
  return { status, headers: { ...SECURITY_HEADERS, 'content-type': 'text/plain; charset=utf-8' }, body: `${say}\n` };
}

/** The file that `path` (of an address, still encoded) names under `root`; nothing outside `root` is ever read. */
export async function pageAt(root: string, path: string): Promise<Page> {
  const missing = plainPage(404, 'There is no such page here.');
  let name: string;
  try {
    name = decodeURIComponent(path);
  } catch {
    return missing;
  }
  if (name.includes('\0') || name.includes('\\')) return missing;
  const type = TYPES[extname(name === '/' ? 'index.html' : name)];
  if (type === undefined) return missing;
  try {
    const base = await realpath(root);
    const file = await realpath(join(base, name === '/' ? 'index.html' : name));
    // After following links, so that neither `..` nor a link leads out.
    if (!file.startsWith(base + sep)) return missing;
    return { status: 200, headers: { ...SECURITY_HEADERS, 'content-type': type }, body: await readFile(file) };
  } catch {
    return missing;
  }
}
