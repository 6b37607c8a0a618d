/** Watches how wide the app is, in its own type's measure, and names the layout. Large type is an attribute of the root. */
import type { ReactiveController, ReactiveControllerHost } from 'lit';
import { type Layout, layoutFor } from './layout.ts';

export class LayoutController implements ReactiveController {
  name: Layout = 'wide';
  readonly #host: ReactiveControllerHost & HTMLElement;
  readonly #size = new ResizeObserver(() => this.#measure());
  readonly #type = new MutationObserver(() => this.#measure());

  constructor(host: ReactiveControllerHost & HTMLElement) {
    this.#host = host;
    host.addController(this);
  }

  hostConnected(): void {
    this.#size.observe(this.#host);
    this.#type.observe(document.documentElement, { attributeFilter: ['data-type'] });
    this.#measure();
  }

  hostDisconnected(): void {
    this.#size.disconnect();
    this.#type.disconnect();
  }

  #measure(): void {
    const rootPixels = Number.parseFloat(getComputedStyle(document.documentElement).fontSize) || 16;
    const name = layoutFor(this.#host.clientWidth || innerWidth, rootPixels);
    if (name === this.name) return;
    this.name = name;
    this.#host.requestUpdate();
  }
}
