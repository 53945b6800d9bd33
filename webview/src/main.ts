// The panel's page in the editor: only wires.

import { reachHost } from './host';
import { make } from './page-elements';
import { runPanel } from './panel';

const root = make('main', { id: 'panel' });
document.body.append(root);
runPanel(reachHost(), root);
