import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** A word as it stands on a sheet, from its upper left corner on [pt]. */
export interface PrintedWord {
  readonly text: string;
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** A sheet of a PDF, with the words that can be selected on it. */
export interface PrintedPage {
  readonly widthPt: number;
  readonly heightPt: number;
  readonly words: readonly PrintedWord[];
}

/** Whether this machine has the program that reads PDFs (poppler). */
export const hasPdfReader = spawnSync('pdftotext', ['-v']).status === 0;

/** The sheets of a PDF as another program than the one that wrote it reads them. */
export function printedPages(pdf: Uint8Array): PrintedPage[] {
  const folder = mkdtempSync(join(tmpdir(), 'dryhold-pdf-'));
  try {
    const file = join(folder, 'page.pdf');
    writeFileSync(file, pdf);
    const { status, stdout, stderr } = spawnSync('pdftotext', ['-bbox', file, '-'], {
      encoding: 'utf8',
      maxBuffer: 1 << 28,
    });
    if (status !== 0) throw new Error(`pdftotext ended with ${status}: ${stderr}`);
    return [...stdout.matchAll(/<page width="([\d.]+)" height="([\d.]+)">(.*?)<\/page>/gs)].map(
      ([, width, height, words = '']) => ({
        widthPt: Number(width),
        heightPt: Number(height),
        words: [
          ...words.matchAll(/xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">(.*?)<\/word>/g),
        ].map(([, left, top, right, bottom, text = '']) => ({
          text: unescaped(text),
          left: Number(left),
          top: Number(top),
          right: Number(right),
          bottom: Number(bottom),
        })),
      }),
    );
  } finally {
    rmSync(folder, { recursive: true });
  }
}

const unescaped = (text: string): string =>
  text
    .replaceAll('&#39;', "'")
    .replaceAll('&apos;', "'")
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&quot;', '"')
    .replaceAll('&amp;', '&');
