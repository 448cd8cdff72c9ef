import { readdirSync } from "node:fs"
import { request, type IncomingMessage } from "node:http"
import path from "node:path"
import { fileURLToPath } from "node:url"
import type { Browser } from "playwright-core"
import { afterAll, beforeAll, describe, expect, inject, test } from "vitest"
import { openBrowser, openPage } from "../helpers/browser"
import { fetchSignedIn, sessionCookie } from "../helpers/signed-in"

const demoUrl = inject("demoUrl")
const app = fileURLToPath(new URL("../../app", import.meta.url))

let browser: Browser

beforeAll(async () => {
  browser = await openBrowser()
})

afterAll(() => browser.close())

// Every address the tree of files can answer under; a part that varies gets one that is well formed.
const examples: Record<string, string> = {
  "measures/[id]": "bp-at-target",
  "[publicId]": "00000000-0000-4000-8000-000000000000",
  "[trialId]": "00000000-0000-4000-8000-000000000000",
  "[file]": "readings.csv",
  "[id]": "1",
  "[line]": "2",
}

const addresses = readdirSync(app, { recursive: true, encoding: "utf8" })
  .filter((file) => /(^|\/)(page\.tsx|route\.ts)$/.test(file))
  .map((file) => `/${path.dirname(file)}/`.replace("/./", "/").replaceAll(/\/\([^/]*\)(?=\/)/g, ""))
  .map((route) => route.replace(/\/$/, "") || "/")
  .map((route) => route.replace("measures/[id]", `measures/${examples["measures/[id]"]}`))
  .map((route) => route.replaceAll(/\[[^/]*\]/g, (part) => examples[part] ?? "nothing-here"))
  .sort()

test("the tree of files has the addresses that are asked below", () => {
  expect(addresses).toEqual(expect.arrayContaining(["/", "/patients", "/sign-in", "/api/tables/patients"]))
})

describe.each([...addresses, "/no/such/address", "/%E0%A4%A"])("the answer at %s", (address) => {
  test.each(["nobody", "somebody"])(
    "to %s carries every header and shows no style attribute",
    async (who) => {
      const answer =
        who === "nobody"
          ? await fetch(demoUrl + address, { redirect: "manual" })
          : await fetchSignedIn(demoUrl + address, { redirect: "manual" })
      const body = await answer.text()

      expect(Object.fromEntries(answer.headers)).toMatchObject({
        "cache-control": "no-store",
        "content-security-policy": expect.stringMatching(/^default-src 'self'; script-src 'self' 'nonce-/),
        "cross-origin-opener-policy": "same-origin",
        "cross-origin-resource-policy": "same-origin",
        "permissions-policy": expect.stringContaining("camera=()"),
        "referrer-policy": "no-referrer",
        "x-content-type-options": "nosniff",
      })
      expect(answer.headers.get("content-security-policy")).not.toContain("unsafe")
      expect(answer.headers.get("content-security-policy")).toContain("frame-ancestors 'none'")
      expect(answer.headers.get("x-powered-by")).toBeNull()
      expect(body).not.toMatch(/<[a-z][^>]*\sstyle="/i)
      expect(body).not.toMatch(/<[a-z][^>]*\son[a-z]+="/i)
      if (body !== "") expect(answer.headers.get("content-type")).toMatch(/charset=utf-8|json|arrow/i)
    },
  )
})

test("files with a hash in their name may be kept, and say what they are", async () => {
  const page = await (await fetchSignedIn(demoUrl)).text()
  const [file = ""] = /\/_next\/static\/[^"]+\.css/.exec(page) ?? []

  const answer = await fetch(demoUrl + file)

  expect(answer.headers.get("cache-control")).toContain("immutable")
  expect(answer.headers.get("x-content-type-options")).toBe("nosniff")
})

test("every screen keeps to the content security policy", async () => {
  const patients = await openPage(browser, { url: `${demoUrl}/patients` })
  const person = patients.getByRole("link", { name: /,/ }).first()
  await person.waitFor()
  const somebody = new URL((await person.getAttribute("href")) ?? "", demoUrl).pathname
  await patients.close()
  const page = await openPage(browser, { url: `${demoUrl}/sign-in` })
  const broken: string[] = []
  await page.exposeFunction("tellBroken", (what: string) => broken.push(`${page.url()} ${what}`))
  await page.addInitScript(`addEventListener("securitypolicyviolation", (event) =>
    tellBroken(event.violatedDirective + " " + event.blockedURI + " " + event.sample))`)

  const screens = ["/", "/measures", "/measures/bp-at-target", "/measures/diet-sodium", "/patients", somebody]
  for (const address of [...screens, "/imports", "/settings", "/sign-in", "/no/such/address"]) {
    await page.goto(demoUrl + address, { waitUntil: "networkidle" })
    // Going on within the site keeps the first page's nonce.
    const next = page.getByRole("navigation").getByRole("link", { name: "Measures" })
    if ((await next.count()) > 0) await next.first().click()
    await page.waitForLoadState("networkidle")
  }

  expect(broken).toEqual([])
  await page.close()
})

test("marks stand at the places they name", async () => {
  const page = await openPage(browser, { url: demoUrl })

  const unplaced = await page.evaluate(`[...document.querySelectorAll("[data-placed]")].filter((element) =>
    element.dataset.placed.split(";").some((one) => element.style.getPropertyValue(one.split(":")[0]) === "")).length`)

  expect(await page.evaluate(`document.querySelectorAll("[data-placed]").length`)).toBeGreaterThan(10)
  expect(unplaced).toBe(0)
  await page.close()
})

test("a script or a handler that was smuggled into a page does not run", async () => {
  const page = await openPage(browser, { url: demoUrl })
  const smuggled = `<script>window.ranScript = true</script>
    <img src="/nothing" onerror="window.ranHandler = true"><a id="led" href="javascript:window.ranLink = true">on</a>`
  await page.route(`${demoUrl}/measures`, async (route) => {
    const response = await route.fetch()
    const body = (await response.text()).replace("</body>", `${smuggled}</body>`)
    await route.fulfill({ response, body })
  })

  await page.goto(`${demoUrl}/measures`, { waitUntil: "networkidle" })
  await page.evaluate("document.querySelector('#led').click()")

  expect(await page.evaluate("[window.ranHandler, window.ranScript, window.ranLink]")).toEqual([
    undefined,
    undefined,
    undefined,
  ])
  await page.close()
})

test("each load has a nonce of its own", async () => {
  const nonces = await Promise.all([1, 2, 3].map(async () => nonceOf(await fetch(`${demoUrl}/sign-in`))))

  expect(new Set(nonces).size).toBe(3)
  expect(nonces.every((nonce) => Buffer.from(nonce, "base64").length >= 16)).toBe(true)
})

describe("what a request says of itself", () => {
  test.each([
    ["x-middleware-subrequest", "proxy:proxy:proxy:proxy:proxy"],
    ["x-user-id", "00000000-0000-4000-8000-000000000000"],
    ["x-forwarded-host", "elsewhere.test"],
    ["x-original-url", "/sign-in"],
    ["x-nonce", "chosen"],
    ["x-forwarded-proto", "https"],
  ])("%s changes nothing", async (name, value) => {
    const headers = { [name]: value }
    const nobody = await fetch(`${demoUrl}/patients`, { headers, redirect: "manual" })
    const door = await fetch(`${demoUrl}/sign-in`, { headers })

    expect([nobody.status, nobody.headers.get("location")]).toEqual([307, "/sign-in"])
    expect(door.status).toBe(200)
    expect(await door.text()).not.toContain("elsewhere.test")
    expect(door.headers.get("content-security-policy")).not.toContain("chosen")
  })

  test("as its host is refused where it is not this site's", async () => {
    const answer = await raw({ path: "/sign-in", headers: { host: "elsewhere.test" } })

    expect(answer.statusCode).toBe(400)
  })

  test("twice is refused", async () => {
    const answer = await fetchSignedIn(`${demoUrl}/?month=2026-01&month=2026-02`)

    expect(answer.status).toBe(400)
  })
})

describe("a form", () => {
  const anAction = { "next-action": "0".repeat(42), "content-type": "text/plain;charset=UTF-8" }

  test.each([
    ["of another site", { origin: "https://elsewhere.test", "sec-fetch-site": "cross-site" }],
    ["of a page with no origin", { origin: "null" }],
    ["of nobody knows whom", {}],
    [
      "of a site that names itself as ours",
      { origin: "https://elsewhere.test", "x-forwarded-host": "elsewhere.test" },
    ],
  ])("%s is refused at every address", async (_title, said) => {
    const cookie = await sessionCookie(demoUrl)
    for (const address of ["/", "/sign-in", "/settings", "/imports", "/api/imports"]) {
      const answer = await fetch(demoUrl + address, {
        method: "POST",
        headers: { ...anAction, ...said, cookie },
        body: "[]",
      })
      expect([address, answer.status]).toEqual([address, 400])
    }
  })

  test("larger than what a screen sends is refused before it is read", async () => {
    const answer = await raw({
      ...{ path: "/settings", method: "POST" },
      headers: { "content-length": "2000000", "sec-fetch-site": "same-origin" },
    })

    expect(answer.statusCode).toBe(413)
  })
})

test.each(["TRACE", "OPTIONS", "PUT", "DELETE", "PATCH"])("the method %s is refused", async (method) => {
  const answer = await raw({ path: "/", method })

  expect(answer.statusCode).toBe(405)
  expect(answer.headers.allow).toBe("GET, HEAD, POST")
})

/** A request as a program may send it, with headers that fetch does not let through. */
function raw(options: {
  path: string
  method?: string
  headers?: Record<string, string>
}): Promise<IncomingMessage> {
  const { hostname, port } = new URL(demoUrl)
  return new Promise((resolve, reject) => {
    const asked = request({ hostname, port, agent: false, ...options }, (answer) => {
      answer.resume().once("end", () => resolve(answer))
    })
    asked.once("error", reject)
    // A request that announces a body is answered without one.
    asked.flushHeaders()
    if (options.headers?.["content-length"] === undefined) asked.end()
  })
}

function nonceOf(answer: Response): string {
  return /'nonce-([^']+)'/.exec(answer.headers.get("content-security-policy") ?? "")?.[1] ?? ""
}
