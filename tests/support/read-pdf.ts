import { inflateSync } from 'node:zlib';

/** A piece of text on a page of a PDF; all lengths in points from the lower left corner. */
export interface Piece {
  readonly text: string;
  readonly x: number;
  /** Of its baseline. */
  readonly y: number;
  readonly width: number;
  readonly size: number;
}

export interface PdfPage {
  readonly width: number;
  readonly height: number;
  readonly pieces: readonly Piece[];
  /** All of its text, as it comes. */
  readonly text: string;
}

interface Font {
  readonly letters: readonly string[];
  /** Thousandths of the size. */
  readonly widths: readonly number[];
}

/** Size of each page in points, and what is drawn on it, of a PDF that keeps each page in one stream. */
export function pagesOf(bytes: Uint8Array): { width: number; height: number; drawn: string }[] {
  const objects = objectsIn(bytes);
  return pageObjects(objects).map((page) => {
    const [, width, height] = /\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/.exec(page) ?? [];
    const drawn = streamOf(objects.get(Number(/\/Contents (\d+) 0 R/.exec(page)?.[1])) ?? '');
    return { width: Number(width), height: Number(height), drawn };
  });
}

/** Reads back what pdfmake writes, and no other PDF: glyphs of embedded fonts, no turned text. */
export function readPdf(bytes: Uint8Array): PdfPage[] {
  const objects = objectsIn(bytes);
  const at = (id: string | undefined): string => objects.get(Number(id)) ?? '';
  const pages = pagesOf(bytes);
  return pageObjects(objects).map((page, i) => {
    const resources = at(/\/Resources (\d+) 0 R/.exec(page)?.[1]);
    const fonts = new Map(
      [...resources.matchAll(/\/(F\d+) (\d+) 0 R/g)].map(([, name, font]) => [name ?? '', fontOf(at(font), at)]),
    );
    const { width, height, drawn } = pages[i]!;
    const pieces = piecesOf(drawn, fonts);
    return { width, height, pieces, text: pieces.map(({ text }) => text).join('') };
  });
}

function pageObjects(objects: ReadonlyMap<number, string>): string[] {
  return [...objects.values()].filter((object) => /\/Type \/Page(?!s)/.test(object));
}

function objectsIn(bytes: Uint8Array): Map<number, string> {
  const file = Buffer.from(bytes).toString('latin1');
  return new Map(
    [...file.matchAll(/(\d+) 0 obj\n([\s\S]*?)\nendobj/g)].map(([, id, body]) => [Number(id), body ?? '']),
  );
}

function streamOf(object: string): string {
  const from = object.indexOf('stream\n') + 'stream\n'.length;
  return inflateSync(Buffer.from(object.slice(from), 'latin1')).toString('latin1');
}

function fontOf(font: string, at: (id: string | undefined) => string): Font {
  const descendant = at(/\/DescendantFonts \[(\d+) 0 R\]/.exec(font)?.[1]);
  const widths = (/\/W \[0 \[([\d. \n]*)\]/.exec(descendant)?.[1] ?? '').trim().split(/\s+/).map(Number);
  const ranges = /beginbfrange\n<0000> <[0-9a-f]+> \[(.*?)\]/s.exec(
    streamOf(at(/\/ToUnicode (\d+) 0 R/.exec(font)?.[1])),
  );
  const letters = [...(ranges?.[1] ?? '').matchAll(/<([0-9a-f ]*)>/g)].map(([, code]) =>
    String.fromCharCode(
      ...((code ?? '').replaceAll(' ', '').match(/.{4}/g) ?? []).map((unit) => Number.parseInt(unit, 16)),
    ),
  );
  return { letters, widths };
}

function piecesOf(content: string, fonts: ReadonlyMap<string, Font>): Piece[] {
  const shown = /1 0 0 1 (-?[\d.]+) (-?[\d.]+) Tm\n\/(F\d+) ([\d.]+) Tf\n\[(.*?)\] TJ/g;
  return [...content.matchAll(shown)].map(([, x, y, name, size, glyphs]) => {
    const font = fonts.get(name ?? '');
    if (font === undefined) throw new Error(`the page has no font ${name}`);
    const codes = [...(glyphs ?? '').matchAll(/<([0-9a-f]*)>/g)]
      .flatMap(([, run]) => run?.match(/.{4}/g) ?? [])
      .map((code) => Number.parseInt(code, 16));
    const kerned = [...(glyphs ?? '').replace(/<[0-9a-f]*>/g, ' ').matchAll(/-?[\d.]+/g)].reduce(
      (sum, [by]) => sum + Number(by),
      0,
    );
    const thousandths = codes.reduce((sum, code) => sum + (font.widths[code] ?? 0), -kerned);
    return {
      text: codes.map((code) => font.letters[code] ?? '').join(''),
      ...{ x: Number(x), y: Number(y), size: Number(size), width: (thousandths * Number(size)) / 1000 },
    };
  });
}
