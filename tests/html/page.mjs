// Opens pages of `report --html` in headless Chromium as readers do, at three widths, in the light and in the dark.
//
//   node page.mjs FOLDER CHROMIUM PAGE...     FOLDER holds node_modules/playwright-core
//
// Wrong is: a page wider than the window, anything on the console, any request beside the file itself, text that does not stand
// out from what is behind it (WCAG 2.2, 1.4.3), a heading that skips a level, an id twice, a picture without words or numbers.
import { createRequire } from 'node:module';
import { existsSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { dirname, resolve } from 'node:path';

const [folder, executablePath, ...files] = process.argv.slice(2);
const { chromium } = createRequire(resolve(folder, 'x.js'))('playwright-core');

// Runs in the page. Colours do not change with the width: they are looked at once.
function faults(withContrast) {
  const found = [];
  const numbers = colour => colour.match(/[\d.]+/g).map(Number);
  const linear = c => (c / 255 <= 0.04045 ? c / 255 / 12.92 : ((c / 255 + 0.055) / 1.055) ** 2.4);
  const luminance = ([r, g, b]) => 0.2126 * linear(r) + 0.7152 * linear(g) + 0.0722 * linear(b);
  const behind = element => {
    for (let at = element; at; at = at.parentElement) {
      const colour = numbers(getComputedStyle(at).backgroundColor);
      if (colour.length < 4 || colour[3] > 0) return colour;
    }
    return [255, 255, 255];
  };
  const poor = new Set();
  for (const element of withContrast ? document.body.querySelectorAll('*') : []) {
    if (element.closest('svg')) continue; // drawn on white of its own
    if (![...element.childNodes].some(node => node.nodeType === 3 && node.data.trim())) continue;
    const style = getComputedStyle(element);
    const [a, b] = [luminance(numbers(style.color)), luminance(behind(element))];
    const ratio = (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
    const size = parseFloat(style.fontSize);
    const large = size >= 24 || (size >= 18.66 && Number(style.fontWeight) >= 700);
    if (ratio < (large ? 3 : 4.5)) poor.add(`${element.localName}.${element.className} has contrast ${ratio.toFixed(2)}`);
  }
  found.push(...poor);
  const wide = document.documentElement.scrollWidth - window.innerWidth;
  if (wide > 0) found.push(`the page is ${wide} px wider than the window`);
  let level = 0;
  for (const heading of document.querySelectorAll('h1,h2,h3,h4,h5,h6')) {
    const next = Number(heading.localName[1]);
    if (next > level + 1) found.push(`heading "${heading.textContent}" skips a level`);
    level = next;
  }
  const ids = new Set();
  for (const { id } of document.querySelectorAll('[id]')) {
    if (ids.has(id)) found.push(`id ${id} stands twice`);
    ids.add(id);
  }
  for (const link of document.querySelectorAll('a[href^="#"]'))
    if (!ids.has(link.getAttribute('href').slice(1))) found.push(`link ${link.getAttribute('href')} leads nowhere`);
  for (const use of document.querySelectorAll('svg use'))
    if (!ids.has(use.getAttribute('href').slice(1))) found.push(`mark ${use.getAttribute('href')} is not there`);
  for (const svg of document.querySelectorAll('svg'))
    if (svg.getAttribute('role') !== 'img' || !svg.getAttribute('aria-label')) found.push('a picture without words');
  for (const figure of document.querySelectorAll('figure'))
    if (!figure.querySelector('details table tbody td')) found.push(`${figure.querySelector('strong').textContent}: no numbers`);
  for (const landmark of ['header', 'main', 'footer', 'h1'])
    if (document.querySelectorAll(`body > ${landmark}, header > ${landmark}`).length !== 1) found.push(`not one ${landmark}`);
  return found;
}

let wrong = 0;
const browser = await chromium.launch({ executablePath, args: ['--no-sandbox', '--disable-quic', '--disable-background-networking'] });
for (const file of files) {
  const url = pathToFileURL(resolve(file)).href;
  for (const width of [360, 768, 1280]) {
    for (const colorScheme of ['light', 'dark']) {
      const page = await browser.newPage({ viewport: { width, height: 800 }, colorScheme });
      const heard = [];
      page.on('console', message => heard.push(`console: ${message.text()}`));
      page.on('pageerror', error => heard.push(`error: ${error.message}`));
      page.on('request', request => request.url() !== url && heard.push(`request: ${request.url()}`));
      await page.goto(url);
      heard.push(...await page.evaluate(faults, width === 1280));
      for (const link of await page.$$eval('a[href]:not([href^="#"])', links => links.map(each => each.getAttribute('href'))))
        if (!existsSync(resolve(dirname(file), link))) heard.push(`link ${link} leads nowhere`);
      for (const what of heard) console.log(`${file}, ${width} px, ${colorScheme}: ${what}`);
      wrong += heard.length;
      await page.close();
    }
  }
}
await browser.close();
process.exit(wrong ? 1 : 0);
