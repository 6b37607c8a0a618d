/**
 * How the regions share the page. The layout's name comes from `layout.ts`;
 * every region scrolls by itself, so that head and reading field never leave.
 */
import { css } from 'lit';

export const appStyles = css`
  :host {
    display: block;
    height: 100vh;
    height: 100dvh;
    position: relative;
    /* Not hidden: a hidden overflow still scrolls when something far down gets the focus. */
    overflow: clip;
    container-type: inline-size;
  }
  .shell {
    display: grid;
    grid-template:
      'head head' auto
      'news news' auto
      'graph work' minmax(0, 1fr)
      'strip work' auto / minmax(0, 2fr) minmax(0, 1fr);
    height: 100%;
    background: var(--hop-page);
  }
  .shell[data-layout='middle'] {
    grid-template-areas: 'head head' 'news news' 'graph work' 'strip strip';
    grid-template-columns: minmax(0, 1fr) 23rem;
  }
  header {
    grid-area: head;
    z-index: 4;
  }
  .news {
    grid-area: news;
  }
  .graph {
    grid-area: graph;
    min-width: 0;
    min-height: 0;
  }
  .work {
    grid-area: work;
    min-height: 0;
    padding: var(--hop-space-2);
    overflow: auto;
    background: var(--hop-sunken);
    border-inline-start: 1px solid var(--hop-rule);
  }
  .notes {
    grid-area: notes;
    min-width: 0;
    min-height: 0;
    border-inline-end: 1px solid var(--hop-rule);
  }
  .strip {
    display: grid;
    grid-area: strip;
    grid-template-columns: minmax(min(28rem, 50%), 1fr) minmax(0, 1fr);
    gap: var(--hop-space-4);
    z-index: 3;
    padding: var(--hop-space-2) var(--hop-space-4);
    background: var(--hop-surface);
    border-top: 1px solid var(--hop-rule);
  }
  .strip hop-reading-table {
    height: 9.75rem;
  }
  hop-tabs {
    grid-area: tabs;
  }

  .shell.editing {
    grid-template-areas: 'head head' 'news news' 'notes graph' 'strip strip';
    grid-template-columns: minmax(0, 1fr) minmax(0, 1fr);
  }
  .shell.editing .work {
    display: none;
  }

  .shell[data-layout='stacked'] {
    grid-template:
      'head' auto
      'news' auto
      'graph' minmax(20rem, 6fr)
      'work' minmax(0, 5fr)
      'strip' auto / minmax(0, 1fr);
  }
  .shell[data-layout='stacked'].editing {
    grid-template-areas: 'head' 'news' 'notes' 'graph' 'strip';
  }
  .shell[data-layout='stacked'] .strip {
    grid-template-columns: minmax(0, 1fr);
  }
  .shell[data-layout='stacked'] .strip hop-reading-table {
    height: 7rem;
  }

  .shell[data-layout='narrow'],
  .shell[data-layout='narrow'].editing {
    grid-template:
      'head' auto
      'news' auto
      'card' minmax(0, 1fr)
      'strip' auto
      'tabs' auto / minmax(0, 1fr);
  }
  [data-layout='narrow'] .graph,
  [data-layout='narrow'] .work,
  [data-layout='narrow'] .notes,
  [data-layout='narrow'] .readings {
    grid-area: card;
    border: 0;
  }
  [data-layout='narrow'] .readings {
    min-height: 0;
    padding: var(--hop-space-2);
    overflow: auto;
    background: var(--hop-surface);
  }
  [data-layout='narrow'] .strip {
    grid-template-columns: minmax(0, 1fr);
    padding: var(--hop-space-1) var(--hop-space-2);
  }
  @media print {
    .shell[inert] {
      display: none;
    }
  }
  .skip {
    position: absolute;
    z-index: 40;
    inset: var(--hop-space-1) auto auto var(--hop-space-1);
  }
  .skip:not(:focus) {
    width: 1px;
    min-height: 1px;
    height: 1px;
    padding: 0;
    overflow: hidden;
    clip-path: inset(50%);
  }
  .live {
    inset: 0 auto auto 0;
    margin: 0;
  }
  .opening {
    padding: var(--hop-space-6);
    color: var(--hop-text-quiet);
  }
`;
