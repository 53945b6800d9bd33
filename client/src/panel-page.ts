// The document of the panel: an empty page under a policy that allows the bundled script and style and nothing else. What
// stands in it is made by the script, from messages.

import { randomBytes } from 'node:crypto';
import { Uri, type Webview } from 'vscode';

/** What the page may load: the folder of the bundles. */
export function panelResources(extensionUri: Uri): Uri {
  return Uri.joinPath(extensionUri, 'dist');
}

/** The digest of nothing: the controls make a style element without text and fill it through its object. */
const emptyStyle = "'sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU='";

export function panelPage(webview: Webview, extensionUri: Uri): string {
  const address = (name: string) => webview.asWebviewUri(Uri.joinPath(panelResources(extensionUri), name)).toString();
  const nonce = randomBytes(16).toString('base64');
  const policy = `default-src 'none'; script-src 'nonce-${nonce}'; style-src ${webview.cspSource} ${emptyStyle}; base-uri 'none'; form-action 'none'`;
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Timing preview</title>
<link rel="stylesheet" href="${address('panel.css')}">
</head>
<body>
<script nonce="${nonce}" src="${address('panel.js')}"></script>
</body>
</html>
`;
}
