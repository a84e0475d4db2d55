/** Spaces text out as far as WCAG 2.2, 1.4.12 asks that it may be. */
() => {
  const sheet = new CSSStyleSheet();
  sheet.replaceSync(`
    * { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important; }
    p { margin-bottom: 2em !important; }`);
  document.adoptedStyleSheets = [sheet];
}
