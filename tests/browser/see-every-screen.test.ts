import { mkdirSync } from "node:fs"
import { fileURLToPath } from "node:url"
import type { Browser } from "playwright-core"
import { tableFromIPC } from "apache-arrow"
import { afterAll, beforeAll, describe, expect, inject, test } from "vitest"
import { accessibilityProblems, isTooWide, openBrowser, openPage, widths } from "../helpers/browser"
import { fetchSignedIn, sessionCookie } from "../helpers/signed-in"

// README.md shows the pictures of one run; every other run leaves its own where git does not look.
const screenshots = fileURLToPath(
  new URL(process.env.KEEP_SCREENSHOTS ? "./screenshots/" : "../../.data/screenshots/", import.meta.url),
)
const demoUrl = inject("demoUrl")

let browser: Browser
let somebody: string

beforeAll(async () => {
  mkdirSync(screenshots, { recursive: true })
  browser = await openBrowser()
  const answer = await fetchSignedIn(`${demoUrl}/api/tables/patients`)
  const table = tableFromIPC(new Uint8Array(await answer.arrayBuffer()))
  const classCounts = table.getChild("class_count")
  const busiest = Array.from({ length: table.numRows }, (_, row) => row).sort(
    (a, b) => Number(classCounts?.get(b)) - Number(classCounts?.get(a)),
  )[0]
  somebody = String(table.getChild("public_id")?.get(busiest ?? 0))
})

afterAll(() => browser.close())

const screens = [
  ["month", () => "/"],
  ["measures", () => "/measures"],
  ["measure", () => "/measures/bp-at-target"],
  ["measure-diet", () => "/measures/diet-sodium"],
  ["patients", () => "/patients"],
  ["patient", () => `/patients/${somebody}`],
  ["patient-enter", () => `/patients/${somebody}/enter`],
  ["my-patients", () => "/my-patients"],
  ["outreach", () => "/outreach"],
  ["outreach-person", () => `/outreach/people/${somebody}`],
  ["outreach-visits", () => "/outreach/visits"],
  ["outreach-effect", () => "/outreach/effect"],
  ["protection", () => "/protection"],
  ["several-classes", () => "/several-classes"],
  ["sodium", () => "/sodium"],
  ["starting-and-stopping", () => "/starting-and-stopping"],
  ["starting-and-stopping-low", () => "/starting-and-stopping?group=low"],
  ["starting-and-stopping-stopped", () => "/starting-and-stopping?group=stopped"],
  ["sodium-products", () => "/sodium/products"],
  ["settings", () => "/settings"],
  ["settings-outreach", () => "/settings/outreach"],
  ["settings-letters", () => "/settings/letters"],
  ["imports", () => "/imports"],
  ["audit", () => "/audit"],
] as const

describe.each(screens)("the screen %s of the demo clinic", (name, addressOf) => {
  test.each(Object.entries(widths))("reads well on a %s", async (_kind, width) => {
    const page = await openPage(browser, { url: demoUrl + addressOf(), width })

    await page.getByRole("heading", { level: 1 }).first().waitFor()
    if (name === "patients") await page.getByRole("link", { name: /,/ }).first().waitFor()

    expect(await isTooWide(page)).toBe(false)
    expect(await accessibilityProblems(page)).toEqual([])
    await page.screenshot({
      path: `${screenshots}${name}-${width}.png`,
      clip: { x: 0, y: 0, width, height: width < 600 ? 1400 : 1000 },
      fullPage: true,
    })
    await page.close()
  })
})

test.each(screens)("the screen %s reads as well in the dark", async (name, addressOf) => {
  const page = await openPage(browser, { url: demoUrl + addressOf() })
  await page.emulateMedia({ colorScheme: "dark" })
  if (name === "patients") await page.getByRole("link", { name: /,/ }).first().waitFor()

  expect(await accessibilityProblems(page)).toEqual([])
  await page.close()
})

describe("an address nobody has", () => {
  test.each(["/nothing-here", "/measures/no-such-measure", "/patients/00000000-0000-4000-8000-000000000000"])(
    "%s says so and leads back",
    async (address) => {
      const page = await openPage(browser, { url: demoUrl + address })

      expect(await page.getByRole("heading", { level: 1 }).innerText()).toMatch(
        /^There is no such (page|patient here)\.$/,
      )
      expect(await page.getByRole("navigation").getByRole("link", { name: "Month" }).count()).toBe(1)
      expect((await fetchSignedIn(demoUrl + address)).status).toBe(404)
      expect(await accessibilityProblems(page)).toEqual([])
      await page.close()
    },
  )
})

test("the server-rendered screens read without scripts", async () => {
  const context = await browser.newContext({ javaScriptEnabled: false })
  const [name = "", value = ""] = (await sessionCookie(demoUrl)).split("=")
  await context.addCookies([{ name, value, url: demoUrl }])
  const page = await context.newPage()

  for (const address of ["/", "/measures/bp-at-target", `/patients/${somebody}`]) {
    await page.goto(demoUrl + address)

    expect(await page.getByRole("heading", { level: 1 }).count()).toBe(1)
    expect(await page.getByRole("main").innerText()).toMatch(/pressure/i)
  }
  await context.close()
})

test("a form is sent without scripts, too, as before they run", async () => {
  const context = await browser.newContext({ javaScriptEnabled: false })
  const page = await context.newPage()
  await page.goto(`${demoUrl}/sign-in`)

  await page.getByRole("button", { name: /clinic lead/ }).click()

  await page.getByRole("link", { name: /clinic lead/ }).waitFor()
  expect(new URL(page.url()).pathname).toBe("/")
  await context.close()
})

test("paper gets the screen without the navigation", async () => {
  const page = await openPage(browser, { url: demoUrl })

  await page.emulateMedia({ media: "print" })

  expect(await page.getByRole("navigation").first().isVisible()).toBe(false)
  expect(await page.getByRole("heading", { level: 1 }).isVisible()).toBe(true)
  await page.close()
})
