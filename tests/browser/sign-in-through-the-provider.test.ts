import type { Browser, Page } from "playwright-core"
import { afterAll, beforeAll, expect, test } from "vitest"
import { accessibilityProblems, isTooWide, openBrowser, openPage, widths } from "../helpers/browser"
import { openClinicSite, type ClinicSite } from "../helpers/clinic-site"
import { freePort } from "../helpers/filtrate"
import { clientId, clientSecret, openProvider, type Someone } from "../helpers/provider"

const people: Record<string, Someone> = {
  noor: { name: "Noor Haddad", preferred_username: "noor", groups: ["ward-nurses"] },
  ruth: { name: "Ruth Calloway", preferred_username: "ruth", groups: ["it"] },
  gus: { name: "Gus Lind", preferred_username: "gus", groups: ["gardeners"] },
}

let site: ClinicSite
let browser: Browser
let provider: Awaited<ReturnType<typeof openProvider>>

beforeAll(async () => {
  const port = await freePort()
  provider = await openProvider(people, `http://localhost:${port}`)
  site = await openClinicSite({
    ...{ PORT: String(port), FILTRATE_OIDC_ISSUER: provider.issuer },
    ...{ FILTRATE_OIDC_CLIENT_ID: clientId, FILTRATE_OIDC_CLIENT_SECRET: clientSecret },
    ...{ FILTRATE_OIDC_ROLE_CLAIM: "groups", FILTRATE_OIDC_ROLE_MAP: "ward-nurses=nurse,it=administrator" },
  })
  browser = await openBrowser()
})

afterAll(async () => {
  await browser.close()
  await site.close()
  await provider.close()
})

test.each(Object.entries(widths))("the sign-in offers the provider first on a %s", async (_kind, width) => {
  const page = await openPage(browser, { url: `${site.url}/sign-in`, width, roles: "nobody" })

  await page.getByRole("heading", { name: "Sign in with a clinic account" }).waitFor()
  await page.getByRole("heading", { name: "Sign in with a password" }).waitFor()
  await expectSound(page)
  await page.close()
})

test("somebody of the clinic comes in with the role the provider names, and leaves both", async () => {
  const page = await leaveAs("noor")
  await page.getByRole("link", { name: "Noor Haddad, nurse" }).waitFor()
  await page.getByRole("link", { name: "Noor Haddad, nurse" }).click()
  await page.getByText("The clinic's provider lets this account in").waitFor()
  expect(await page.getByRole("heading", { name: "Password" }).count()).toBe(0)
  await expectSound(page)

  await page.getByRole("button", { name: "Sign out", exact: true }).click()
  await page.waitForURL(/session\/end/)
  await page.getByRole("button", { name: "Yes, sign me out" }).click()
  await page.getByRole("heading", { name: "Sign in with a clinic account" }).waitFor()
  await page.goto(`${site.url}/measures`)
  expect(page.url()).toMatch(/sign-in$/)
  await page.close()
})

test("a provider's page is no way into the site for what comes back changed", async () => {
  const page = await openPage(browser, { url: `${site.url}/sign-in`, roles: "nobody" })
  await page.getByRole("link", { name: "Go to the clinic's provider" }).click()
  await page.waitForURL(/interaction/)
  await page.goto(`${site.url}/provider/return?code=another&state=another&iss=${provider.issuer}`)
  await page.getByText("The sign-in through the clinic's provider did not succeed.").waitFor()
  await expectSound(page)
  await page.close()
})

test("somebody without a role here is told so, and is not let in", async () => {
  const page = await leaveAs("gus")
  await page.getByText("The clinic's provider names no role for this account here.").waitFor()
  await expectSound(page)
  await page.goto(`${site.url}/measures`)
  expect(page.url()).toMatch(/sign-in$/)
  await page.close()
})

test("an administrator sees whom the provider lets in, proves it there, and disables somebody for good", async () => {
  const page = await leaveAs("ruth")
  await page.goto(`${site.url}/prove?to=users`)
  await expectSound(page)
  await page.getByRole("link", { name: "Go to the clinic's provider" }).click()
  await signInThere(page, "ruth")
  await page.getByRole("heading", { name: "Users" }).waitFor()
  const entry = page.getByRole("listitem").filter({ hasText: "Noor Haddad" })
  await entry.getByText("nurse, through the clinic's provider").waitFor()
  expect(await entry.getByRole("button", { name: "Link for a password" }).count()).toBe(0)
  await entry.getByRole("button", { name: "Disable" }).click()
  await entry.getByRole("button", { name: "Enable" }).waitFor()
  await expectSound(page)

  const other = await leaveAs("noor")
  await other.getByText("This account is disabled.").waitFor()
  await other.close()
  await page.close()
})

test("a proof of somebody else at the provider is none", async () => {
  const page = await leaveAs("ruth")
  await page.getByRole("link", { name: "Ruth Calloway, administrator" }).waitFor()
  people.other = { name: "Another Person", preferred_username: "other", groups: ["it"] }
  await page.goto(`${site.url}/provider/leave?to=account`)
  await signInThere(page, "other")
  await page.getByRole("link", { name: "Ruth Calloway, administrator" }).waitFor()
  await page.close()
})

/** Goes to the provider from the sign-in and signs in there. */
async function leaveAs(id: string): Promise<Page> {
  const page = await openPage(browser, { url: `${site.url}/sign-in`, roles: "nobody" })
  await page.getByRole("link", { name: "Go to the clinic's provider" }).click()
  await signInThere(page, id)
  return page
}

async function signInThere(page: Page, id: string): Promise<void> {
  await page.getByPlaceholder("Enter any login").fill(id)
  await page.getByPlaceholder("and password").fill("any")
  await page.getByRole("button", { name: "Sign-in" }).click()
  await page.waitForURL(`${site.url}/**`)
}

async function expectSound(page: Page): Promise<void> {
  expect(await isTooWide(page)).toBe(false)
  expect(await accessibilityProblems(page)).toEqual([])
}
