// Drives the page of the Lesson desk by real pointer and key events.
import { untilDrawn } from './lib.mjs';

const kPatience_ms = 30000;

/** The page of the desk with what a test does there. */
export class Desk {
  constructor(visitor, page) {
    this.visitor = visitor;
    this.page = page;
  }

  static async open(visitor, address = 'lesson-desk.html') {
    const page = await visitor.context.newPage();
    page.setDefaultTimeout(kPatience_ms);
    page.on('pageerror', (error) => visitor.troubles.push(`page error: ${error.message}`));
    page.on('console', (message) => message.type() === 'error' && visitor.troubles.push(`console: ${message.text()}`));
    page.on('request', (request) => {
      if (!/^(blob:|data:)/.test(request.url()) && !request.url().startsWith(visitor.bench.address)) visitor.troubles.push(`request to ${request.url()}`);
    });
    await page.goto(visitor.bench.address + address);
    await page.waitForFunction(() => window.lessonDesk);
    return new Desk(visitor, page);
  }

  button(name) { return this.page.getByRole('button', { name, exact: typeof name === 'string' }); }
  press(name) { return this.button(name).first().click(); }
  row(name) { return this.page.getByRole('treeitem', { name }); }
  field(name) { return this.page.locator('.form').getByLabel(name, { exact: true }); }
  project() { return this.page.evaluate(() => window.lessonDesk.project()); }
  errors() { return this.page.evaluate(() => window.lessonDesk.errors()); }

  /** Waits until the core has read the present state. */
  async read() {
    await this.page.waitForFunction(() => window.lessonDesk.isRead());
    return this.errors();
  }

  /** Replaces what stands in a field, by keys. */
  async type(field, text) {
    await field.click();
    await this.page.keyboard.press('Control+A');
    await this.page.keyboard.type(text);
  }

  async dialog(name) {
    const dialog = this.page.getByRole('dialog', { name });
    await dialog.waitFor();
    return dialog;
  }

  /** Opens the dialog that adds a lesson, and presses the button in it. */
  async add(button) {
    await this.press('Add a lesson');
    await (await this.dialog('Add a lesson')).getByRole('button', { name: button, exact: true }).click();
  }

  async trialFrame() {
    const handle = await this.page.waitForSelector('.stage iframe');
    const frame = await handle.contentFrame();
    await untilDrawn(frame);
    return frame;
  }
}
