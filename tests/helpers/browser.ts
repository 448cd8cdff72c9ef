import axe, { type AxeResults } from "axe-core"
import { chromium, type Browser, type Page } from "playwright-core"
import type { Role } from "../../lib/access/roles"
import { findChromium } from "./chromium"
import { sessionCookie } from "./signed-in"

/** The two widths every screen is seen at: a desk and a phone. */
export const widths = { desk: 1440, phone: 390 } as const

/** One Chromium for a test file; close it in `afterAll`. */
export async function openBrowser(): Promise<Browser> {
  const { program, env } = await findChromium()
  return chromium.launch({
    executablePath: program,
    env,
    args: ["--no-sandbox", "--disable-gpu", "--font-render-hinting=none"],
  })
}

/** A fresh page of one width, signed in, in English, in the clinic's time zone, and with nothing that moves. */
export async function openPage(
  browser: Browser,
  options: {
    url: string
    width?: number
    timeZone?: string
    roles?: readonly Role[] | "nobody"
    name?: string
  },
): Promise<Page> {
  const { url, width = widths.desk, timeZone = "UTC", roles, name } = options
  const page = await browser.newPage({
    viewport: { width, height: width < 600 ? 844 : 900 },
    deviceScaleFactor: 1,
    hasTouch: width < 600,
    locale: "en-GB",
    timezoneId: timeZone,
    reducedMotion: "reduce",
  })
  if (roles !== "nobody") await signIn(page, url, { roles, name })
  await page.goto(url, { waitUntil: "networkidle" })
  return page
}

async function signIn(
  page: Page,
  url: string,
  who: { roles: readonly Role[] | undefined; name: string | undefined },
): Promise<void> {
  const [name = "", value = ""] = (await sessionCookie(url, who.roles, who.name)).split("=")
  await page
    .context()
    .addCookies([{ name, value, url: new URL(url).origin, httpOnly: true, sameSite: "Lax" }])
}

/** What an accessibility scan (WCAG 2.2 A and AA, and axe's best practices) finds wrong, one line per place; empty when nothing. */
export async function accessibilityProblems(page: Page): Promise<string[]> {
  // Going from screen to screen the title comes a moment after the matter.
  await page.locator("head > title:not(:empty)").first().waitFor({ state: "attached" })
  await page.evaluate(axe.source)
  const results = await page.evaluate<AxeResults>("axe.run(document, { resultTypes: ['violations'] })")
  return results.violations.flatMap((violation) =>
    violation.nodes.map((node) => `${violation.id}: ${violation.help} at ${node.target.join(" ")}`),
  )
}

/** Whether the page is wider than its window, which on a phone means sideways scrolling. */
export async function isTooWide(page: Page): Promise<boolean> {
  return page.evaluate("document.documentElement.scrollWidth > document.documentElement.clientWidth")
}
