/**
 * How does the page lie on paper? Page size, margins and page numbers can only
 * be said to the document, not inside an element, so the report puts a style
 * sheet of its own there while it is open. Page numbers in the margin are drawn
 * by some browsers only; the report's head names case and date for the others.
 */
export const PAPERS = ['a4', 'letter'] as const;
export type Paper = (typeof PAPERS)[number];

const SIZES: Readonly<Record<Paper, string>> = { a4: 'A4', letter: 'letter' };

/** A text as a CSS string: what could end it or start anything else is written as an escape. */
export function cssString(text: string): string {
  const safe = text.replace(/[^\p{Letter}\p{Number} .,:;()–-]/gu, (sign) => {
    return `\\${(sign.codePointAt(0) ?? 0).toString(16)} `;
  });
  return `"${safe}"`;
}

/** The style sheet for the document. */
export function paperSheet(paper: Paper, foot: string, page: string, of: string): string {
  const type = 'font: 8pt system-ui, sans-serif; color: #444;';
  return `
    @page {
      size: ${SIZES[paper]} portrait;
      margin: 15mm 15mm 17mm;
      @bottom-left { content: ${cssString(foot)}; ${type} }
      @bottom-right { content: ${cssString(`${page} `)} counter(page) ${cssString(` ${of} `)} counter(pages); ${type} }
    }
    @media print {
      html, body, hop-app { height: auto; overflow: visible; background: #fff; }
      hop-app { position: static; container-type: normal; }
    }
  `;
}
