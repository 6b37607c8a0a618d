/**
 * Starts the page: theme before the first paint, then the one element that is
 * the app.
 */
import { readPreferences } from './view/app/preferences.ts';
import { showPreferences } from './view/app/show-preferences.ts';
import { adoptTheme } from './view/theme/theme.css.ts';
import './view/app/hop-app.ts';

adoptTheme(document);
showPreferences(document, readPreferences());
