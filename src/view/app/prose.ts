/**
 * Problems quote what was typed in backticks. On screen that becomes a code
 * element; the text itself stays text, whatever was typed.
 */
import { html, type TemplateResult } from 'lit';

/** The pieces of a text, plain and quoted by turns; an odd last backtick is left as it is. */
export function splitQuoted(text: string): readonly { readonly text: string; readonly quoted: boolean }[] {
  const parts = text.split('`');
  if (parts.length % 2 === 0) {
    const last = parts.pop() ?? '';
    parts.push(`${parts.pop() ?? ''}\`${last}`);
  }
  return parts.map((part, at) => ({ text: part, quoted: at % 2 === 1 })).filter((piece) => piece.text !== '');
}

/** A text with its quotations as code. */
export function prose(text: string): readonly TemplateResult[] {
  return splitQuoted(text).map((piece) =>
    piece.quoted ? html`<code>${piece.text}</code>` : html`${piece.text}`,
  );
}
