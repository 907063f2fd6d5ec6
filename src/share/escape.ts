/** Text that stays text inside of a language with marks. */

const MARKUP: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** For HTML and SVG, inside of elements and of quoted attributes. */
export const inMarkup = (text: string): string => text.replace(/[&<>"']/g, (sign) => MARKUP[sign]!);

/** For a line of Markdown: every sign that would begin markup, a link or a mention has a backslash before it. */
export const inMarkdown = (text: string): string =>
  text.replace(/[\\`*_[\]<>|~#&@]|:(?=\/\/)|(?<=\bwww)\./gi, '\\$&').replace(/^(\s*)([-+=]|\d+[.)])(?=\s|$)/, '$1\\$2');
