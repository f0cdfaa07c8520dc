import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import type * as Rasterizer from '@resvg/resvg-wasm';

/** Dots for each pixel of the picture, so that it is sharp on a dense screen and in print. */
const dotsPerPx = 2;
const family = 'DejaVu Sans';

/**
 * A picture as PNG, with the type that comes along with the program, so that it is the same on every machine. A character that this type
 * does not have is a box.
 *
 * @param svg a whole SVG file
 * @returns the bytes of the PNG
 * @throws Error where the picture cannot be drawn: a bug
 */
export async function picturePng(svg: string): Promise<Uint8Array> {
  loaded ??= load();
  const { Resvg, fontBuffers } = await loaded;
  const font = { fontBuffers, defaultFontFamily: family, sansSerifFamily: family };
  const read = new Resvg(withoutLayers(svg), { font, fitTo: { mode: 'zoom', value: dotsPerPx } });
  const drawn = read.render();
  const png = drawn.asPng();
  // Its memory is not the engine's.
  drawn.free();
  read.free();
  return png;
}

interface Loaded {
  readonly Resvg: typeof Rasterizer.Resvg;
  /** Without a font all text would be left out. */
  readonly fontBuffers: Uint8Array[];
}

/** Once: it takes a quarter of a second. */
let loaded: Promise<Loaded> | undefined;

async function load(): Promise<Loaded> {
  const resolved = createRequire(import.meta.url).resolve;
  const [{ initWasm, Resvg }, program, ...fontBuffers] = await Promise.all([
    import('@resvg/resvg-wasm'),
    readFile(resolved('@resvg/resvg-wasm/index_bg.wasm')),
    readFile(resolved('dejavu-fonts-ttf/ttf/DejaVuSans.ttf')),
    readFile(resolved('dejavu-fonts-ttf/ttf/DejaVuSans-Bold.ttf')),
  ]);
  await initWasm(program);
  return { Resvg, fontBuffers };
}

/**
 * Shapes that are see-through by themselves rather than by a layer of their own: of a layer within a part of which most lies far outside the
 * picture, the rasterizer makes an error.
 */
function withoutLayers(svg: string): string {
  return svg.replaceAll(/<(?:path|rect|circle|line)\b[^>]*>/g, (shape) =>
    /\b(?:fill|stroke)-opacity=/.test(shape)
      ? shape
      : shape.replace(/ opacity="([^"]*)"/, ' fill-opacity="$1" stroke-opacity="$1"'),
  );
}
