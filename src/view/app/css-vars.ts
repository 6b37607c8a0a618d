/**
 * How does a computed length reach a style sheet under a policy that forbids
 * style attributes? Through the style object, which the policy allows. Lit's
 * own `styleMap` writes an attribute on first render and would be blocked.
 */

import { noChange } from 'lit';
import { Directive, type DirectiveParameters, directive, type ElementPart } from 'lit/directive.js';

class CssVarsDirective extends Directive {
  render(_values: Readonly<Record<`--${string}`, string>>): unknown {
    return noChange;
  }

  override update(part: ElementPart, [values]: DirectiveParameters<this>): unknown {
    const { style } = part.element as HTMLElement;
    for (const [name, value] of Object.entries(values)) style.setProperty(name, value);
    return noChange;
  }
}

/** Sets custom properties on the element it stands in. */
export const cssVars = directive(CssVarsDirective);
