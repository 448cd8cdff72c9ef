import type { Browser, Page } from "playwright-core"
import { afterAll, beforeAll, expect, test } from "vitest"
import { codeOf } from "../helpers/authenticator"
import { accessibilityProblems, isTooWide, openBrowser, openPage, widths } from "../helpers/browser"
import { openClinicSite, type ClinicSite } from "../helpers/clinic-site"

const password = "gnu kelp dwarf lantern oboe"
let browser: Browser
let site: ClinicSite

beforeAll(async () => {
  site = await openClinicSite()
  browser = await openBrowser()
})

afterAll(async () => {
  await browser.close()
  await site.close()
})

test.each(Object.entries(widths))(
  "the sign-in and the setup link are sound on a %s",
  async (_kind, width) => {
    for (const url of [`${site.url}/sign-in`, site.setupLink(), `${site.url}/setup/unknown`]) {
      const page = await openPage(browser, { url, width, roles: "nobody" })
      await expectSound(page)
      await page.close()
    }
  },
)

test("the first administrator comes in by the link of the start, sets up a second factor, and signs in with it", async () => {
  const page = await openPage(browser, { url: site.setupLink(), roles: "nobody" })
  await page.getByLabel("Name", { exact: true }).fill("Ruth Calloway")
  await page.getByLabel("User name").fill("Ruth")
  await page.getByLabel("Password", { exact: true }).fill("passwordpassword")
  await page.getByLabel("The same password again").fill("passwordpassword")
  await page.getByRole("button", { name: "Set password" }).click()
  await page.getByText("This password is too easy to guess").waitFor()

  await page.getByLabel("Password", { exact: true }).fill(password)
  await page.getByLabel("The same password again").fill(password)
  await page.getByRole("button", { name: "Set password" }).click()
  await page.getByRole("heading", { name: "Set up the second factor" }).waitFor()
  const half = await cookieOf(page)
  const inside = await openAs(page, "/measures")
  expect(inside).toMatch(/sign-in/)
  await page.goto(`${site.url}/sign-in/factor`)
  await expectSound(page)

  const key = await page.locator("code").innerText()
  await page.getByLabel("Code the app shows").fill("000000")
  await page.getByRole("button", { name: "Set up" }).click()
  await page.getByText("The code is not right").waitFor()
  await page.getByLabel("Code the app shows").fill(codeOf(key))
  await page.getByRole("button", { name: "Set up" }).click()
  await page.getByRole("heading", { name: "Account", exact: true }).waitFor()
  expect(await cookieOf(page)).not.toBe(half)
  await page.getByRole("button", { name: "Make new recovery codes" }).click()
  await page.getByText("Shown once").waitFor()
  expect(await page.getByRole("status").locator("code").count()).toBe(10)
  await expectSound(page)

  await page.getByRole("button", { name: "Sign out", exact: true }).click()
  await page.getByLabel("User name").fill("ruth")
  await page.getByLabel("Password").fill(password)
  await page.getByRole("button", { name: "Sign in" }).click()
  await page.getByRole("heading", { name: "Second factor" }).waitFor()
  await expectSound(page)
  await page.getByLabel("Code").fill(codeOf(key, Date.now() + 30_000))
  await page.getByRole("button", { name: "Sign in" }).click()
  await page.getByRole("link", { name: "Ruth Calloway, administrator" }).waitFor()

  await page.goto(site.setupLink())
  await page.getByText("This link was used").waitFor()
  await page.close()
})

test.each(Object.entries(widths))(
  "someone invited comes in by a link, and is out once disabled, on a %s",
  async (kind, width) => {
    const page = await openPage(browser, { url: `${site.url}/users`, width, roles: ["administrator"] })
    await page.getByLabel("User name").fill(`noor-${kind}`)
    await page.locator("#invite-name").fill(`Noor Haddad ${kind}`)
    await page.getByRole("button", { name: "Invite" }).click()
    await page.getByText("at least one role").waitFor()
    expect(await page.locator("#invite-name").inputValue()).toBe(`Noor Haddad ${kind}`)
    await page.getByLabel("nurse").first().check()
    await page.getByRole("button", { name: "Invite" }).click()
    const link = await page.getByRole("status").locator("code").innerText()
    await page.getByText(`Noor Haddad ${kind}`).waitFor()
    await expectSound(page)

    const guest = await openPage(browser, { url: link, width, roles: "nobody" })
    await guest.getByLabel("Password", { exact: true }).fill(password)
    await guest.getByLabel("The same password again").fill(password)
    await guest.getByRole("button", { name: "Set password" }).click()
    await guest.getByLabel("Code the app shows").fill(codeOf(await guest.locator("code").innerText()))
    await guest.getByRole("button", { name: "Set up" }).click()
    await guest.getByRole("heading", { name: "Account", exact: true }).waitFor()

    await page.reload()
    const entry = page.getByRole("listitem").filter({ hasText: `Noor Haddad ${kind}` })
    await entry.getByRole("button", { name: "Disable" }).click()
    await entry.getByRole("button", { name: "Enable" }).waitFor()
    await guest.reload()
    await guest.waitForURL(/sign-in/)
    await guest.close()
    await page.close()
  },
)

test("signing out everywhere ends every session", async () => {
  const page = await openPage(browser, { url: `${site.url}/account`, roles: ["nurse"] })
  const token = await cookieOf(page)
  await page.getByRole("button", { name: "Sign out everywhere" }).click()
  await page.waitForURL(/sign-in/)

  const replay = await fetch(`${site.url}/account`, {
    headers: { cookie: `filtrate=${token}` },
    redirect: "manual",
  })
  expect(replay.headers.get("location")).toMatch(/sign-in/)
  await page.close()
})

async function openAs(page: Page, path: string): Promise<string> {
  await page.goto(site.url + path)
  return page.url()
}

async function cookieOf(page: Page): Promise<string | undefined> {
  return (await page.context().cookies()).find((cookie) => cookie.name === "filtrate")?.value
}

async function expectSound(page: Page): Promise<void> {
  expect(await isTooWide(page)).toBe(false)
  expect(await accessibilityProblems(page)).toEqual([])
}
