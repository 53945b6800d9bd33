// Hears of another theme of the editor: it changes the classes of the body and the custom properties of the document.

export function watchTheme(changed: () => void): void {
  const observer = new MutationObserver(changed);
  observer.observe(document.body, { attributes: true, attributeFilter: ['class', 'data-vscode-theme-kind'] });
  observer.observe(document.documentElement, { attributes: true, attributeFilter: ['style', 'class'] });
}
