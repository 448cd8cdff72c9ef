import { generateKeyPairSync, randomBytes } from "node:crypto"
import type { Browser, CDPSession, Page, Request } from "playwright-core"
import { afterAll, beforeAll, expect, test } from "vitest"
import { codeOf } from "../helpers/authenticator"
import { accessibilityProblems, isTooWide, openBrowser, openPage } from "../helpers/browser"
import { openClinicSite, type ClinicSite } from "../helpers/clinic-site"

const password = "gnu kelp dwarf lantern oboe"
const phone = {
  protocol: "ctap2",
  transport: "internal",
  hasResidentKey: true,
  hasUserVerification: true,
  isUserVerified: true,
  automaticPresenceSimulation: true,
} as const

let site: ClinicSite
let browser: Browser

beforeAll(async () => {
  site = await openClinicSite()
  browser = await openBrowser()
})

afterAll(async () => {
  await browser.close()
  await site.close()
})

test("a passkey is added, signs in alone once an answer, and serves as proof and as second factor", async () => {
  const page = await firstAdministrator()
  const devtools = await page.context().newCDPSession(page)
  await devtools.send("WebAuthn.enable")
  const { authenticatorId } = await devtools.send("WebAuthn.addVirtualAuthenticator", { options: phone })
  await page.getByText("There are no passkeys.").waitFor()
  await page.getByLabel("Name of the new passkey").fill("Ward phone")
  await page.getByRole("button", { name: "Add a passkey" }).click()
  await page.getByText("not used yet").waitFor()
  await expectSound(page)
  await page.getByLabel("Name of Ward phone").fill("Old phone")
  await page.getByRole("button", { name: "Rename" }).click()
  await page.getByRole("button", { name: "Remove Old phone" }).waitFor()

  await signOut(page)
  await expectSound(page)
  const given = page.waitForRequest((request) => (request.postData() ?? "").includes("authenticatorData"))
  await page.getByRole("button", { name: "Use a passkey" }).click()
  await page.getByRole("link", { name: "Ruth Calloway, administrator" }).waitFor()
  expect(await replay(await given)).toBe("refused")

  await page.goto(`${site.url}/prove?to=account`)
  await expectSound(page)
  await page.getByRole("button", { name: "Use a passkey" }).click()
  await page.getByRole("heading", { name: "Passkeys" }).waitFor()

  await signOut(page)
  await withPassword(page)
  await page.getByRole("heading", { name: "Second factor" }).waitFor()
  await expectSound(page)
  await page.getByRole("button", { name: "Use a passkey" }).click()
  await page.getByRole("link", { name: "Ruth Calloway, administrator" }).waitFor()

  await signOut(page)
  await devtools.send("WebAuthn.removeVirtualAuthenticator", { authenticatorId })
  await holdForeignPasskey(devtools)
  await page.getByRole("button", { name: "Use a passkey" }).click()
  await page.getByText("This passkey does not sign in here.").waitFor()
  await expectSound(page)

  await withPassword(page)
  await page.getByRole("heading", { name: "Second factor" }).waitFor()
  await page.goto(`${site.url}/measures`)
  expect(page.url()).toMatch(/sign-in$/)
  await page.close()
})

test("a passkey is of no use once it is taken away", async () => {
  const page = await openPage(browser, { url: `${site.url}/account`, roles: ["nurse"] })
  const devtools = await page.context().newCDPSession(page)
  await devtools.send("WebAuthn.enable")
  await devtools.send("WebAuthn.addVirtualAuthenticator", { options: phone })
  await page.getByLabel("Name of the new passkey").fill("Key")
  await page.getByRole("button", { name: "Add a passkey" }).click()
  await page.getByRole("button", { name: "Remove Key" }).click()
  await page.getByText("There are no passkeys.").waitFor()

  await signOut(page)
  await page.getByRole("button", { name: "Use a passkey" }).click()
  await page.getByText("This passkey does not sign in here.").waitFor()
  await page.close()
})

test("an authenticator that does not verify the person adds nothing", async () => {
  const page = await openPage(browser, { url: `${site.url}/account`, width: 390, roles: ["dietitian"] })
  const devtools = await page.context().newCDPSession(page)
  await devtools.send("WebAuthn.enable")
  await devtools.send("WebAuthn.addVirtualAuthenticator", { options: { ...phone, isUserVerified: false } })
  await page.getByLabel("Name of the new passkey").fill("Key")
  await page.getByRole("button", { name: "Add a passkey" }).click()
  await page.getByText("No passkey was made.").waitFor()
  await expectSound(page)
  await page.close()
})

async function firstAdministrator(): Promise<Page> {
  const page = await openPage(browser, { url: site.setupLink(), roles: "nobody" })
  await page.getByLabel("Name", { exact: true }).fill("Ruth Calloway")
  await page.getByLabel("User name").fill("ruth")
  await page.getByLabel("Password", { exact: true }).fill(password)
  await page.getByLabel("The same password again").fill(password)
  await page.getByRole("button", { name: "Set password" }).click()
  await page.getByLabel("Code the app shows").fill(codeOf(await page.locator("code").innerText()))
  await page.getByRole("button", { name: "Set up" }).click()
  await page.getByRole("heading", { name: "Account", exact: true }).waitFor()
  return page
}

async function withPassword(page: Page): Promise<void> {
  await page.getByLabel("User name").fill("ruth")
  await page.getByLabel("Password").fill(password)
  await page.getByRole("button", { name: "Sign in" }).click()
}

async function signOut(page: Page): Promise<void> {
  await page.getByRole("button", { name: "Sign out", exact: true }).click()
  await page.getByRole("heading", { name: "Sign in with a passkey" }).waitFor()
}

/** Sends once more, with the same cookies, what has signed in. */
async function replay(request: Request): Promise<"refused" | "signed in"> {
  const headers = Object.entries(await request.allHeaders()).filter(
    ([name]) => !name.startsWith(":") && !["host", "content-length", "connection"].includes(name),
  )
  const answer = await fetch(request.url(), {
    ...{ method: "POST", headers, body: request.postData(), redirect: "manual" },
  })
  const isRefused = (await answer.text()).includes("This passkey does not sign in here.")
  const isIn = answer.headers.getSetCookie().some((cookie) => /^filtrate=./.test(cookie))
  return isRefused && !isIn ? "refused" : "signed in"
}

/** An authenticator with a passkey for this site that the site has never seen. */
async function holdForeignPasskey(devtools: CDPSession): Promise<void> {
  const { authenticatorId } = await devtools.send("WebAuthn.addVirtualAuthenticator", { options: phone })
  const { privateKey } = generateKeyPairSync("ec", { namedCurve: "P-256" })
  await devtools.send("WebAuthn.addCredential", {
    authenticatorId,
    credential: {
      ...{ credentialId: randomBytes(20).toString("base64"), isResidentCredential: true, signCount: 0 },
      ...{ rpId: "localhost", userHandle: randomBytes(16).toString("base64") },
      privateKey: privateKey.export({ type: "pkcs8", format: "der" }).toString("base64"),
    },
  })
}

async function expectSound(page: Page): Promise<void> {
  expect(await isTooWide(page)).toBe(false)
  expect(await accessibilityProblems(page)).toEqual([])
}
