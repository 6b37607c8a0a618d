/**
 * The one door to cytoscape and dagre: imported lazily only, so that both stay
 * out of the first load. Cytoscape puts a style element of its own into the
 * document unless some element has that id; an empty meta element does, where
 * even an empty style element breaks `style-src 'self'` (cytoscape PR 2318).
 */
import cytoscape from 'cytoscape';
import cytoscapeDagre from 'cytoscape-dagre';

const STYLE_ID = '__________cytoscape_stylesheet';

cytoscape.use(cytoscapeDagre);

/** Makes a cytoscape instance; with a container only where there is a document. */
export function createCytoscape(options: cytoscape.CytoscapeOptions): cytoscape.Core {
  if (typeof document !== 'undefined' && document.getElementById(STYLE_ID) === null) {
    const stand = document.createElement('meta');
    stand.id = STYLE_ID;
    document.head.append(stand);
  }
  return cytoscape(options);
}
