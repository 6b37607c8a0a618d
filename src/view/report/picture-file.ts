/**
 * The picture as a file: SVG as it is, PNG drawn from it on a canvas. A canvas
 * has a largest size beyond which browsers hand out an empty picture without a
 * word, so the PNG is capped and an empty one is a failure that is said.
 */
import type { ReportPicture } from './report-picture.ts';

/** Longest side of a PNG, px. Browsers differ; all take this. */
export const LONGEST_PNG_PIXELS = 4000;
/** Twice the screen's pixels, so that letters stay crisp in print. */
const SCALE = 2;
/** The browser keeps the link's data until it has begun to save. */
const KEEP_LINK_MILLISECONDS = 60_000;

/** Size of the PNG: twice the drawing, no side longer than the cap. */
export function pngSize(width: number, height: number): { readonly width: number; readonly height: number } {
  const scale = Math.min(SCALE, LONGEST_PNG_PIXELS / Math.max(width, height, 1));
  return { width: Math.max(1, Math.floor(width * scale)), height: Math.max(1, Math.floor(height * scale)) };
}

/** Draws the picture as a PNG; rejects when the browser cannot. */
export async function createPng({ svg, widthPixels, heightPixels }: ReportPicture): Promise<Blob> {
  const address = URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' }));
  try {
    const image = new Image();
    image.src = address;
    await image.decode();
    const canvas = document.createElement('canvas');
    const size = pngSize(widthPixels, heightPixels);
    canvas.width = size.width;
    canvas.height = size.height;
    canvas.getContext('2d')?.drawImage(image, 0, 0, size.width, size.height);
    return await new Promise((resolve, reject) => {
      canvas.toBlob((blob) => {
        if (blob === null || blob.size === 0) reject(new Error('The browser gave an empty picture.'));
        else resolve(blob);
      }, 'image/png');
    });
  } finally {
    URL.revokeObjectURL(address);
  }
}

/** Hands a file to the browser to save. */
export function downloadBlob(fileName: string, blob: Blob): void {
  const address = URL.createObjectURL(blob);
  const link = document.createElement('a');
  link.href = address;
  link.download = fileName;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), KEEP_LINK_MILLISECONDS);
}
