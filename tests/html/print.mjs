// How many sheets pages take when they are printed, on A4 and on Letter.
//   node print.mjs FOLDER CHROMIUM PAGE.html=SHEETS|<=SHEETS ...     FOLDER has node_modules with playwright-core
import { createRequire } from 'node:module';
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';

const [folder, executablePath, ...wanted] = process.argv.slice(2);
const { chromium } = createRequire(resolve(folder, 'x.js'))('playwright-core');
const browser = await chromium.launch({ executablePath, args: ['--no-sandbox', '--disable-quic', '--disable-background-networking'] });
let wrong = 0;
for (const each of wanted) {
  const [, file, most, sheets] = each.match(/^(.*?)(<?)=(\d+)$/);
  const page = await browser.newPage();
  await page.goto(pathToFileURL(resolve(file)).href);
  for (const format of ['A4', 'Letter']) {
    const pdf = (await page.pdf({ format })).toString('latin1');
    const count = Math.max(...[...pdf.matchAll(/\/Count (\d+)/g)].map(found => Number(found[1])));
    if (most ? count <= Number(sheets) : count === Number(sheets)) continue;
    console.log(`${file}: ${count} sheets of ${format}, not ${most ? 'at most ' : ''}${sheets}`);
    wrong++;
  }
  await page.close();
}
await browser.close();
process.exit(wrong ? 1 : 0);
