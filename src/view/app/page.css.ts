/** The page around the app: no margin, no scrolling of its own. */
import { css } from 'lit';

export const pageStyles = css`
  html,
  body {
    height: 100%;
    margin: 0;
  }
  body {
    overflow: hidden;
    overscroll-behavior: none;
  }
`;
