import { describe, expect, test } from "vitest"
import { innerHeaders, refusalOf } from "../../../lib/front/admission.mjs"
import { ownOrigins } from "../../../lib/front/origins.mjs"

const origins = ownOrigins({ origin: undefined, port: 3000 })
const opened = { method: "GET", url: "/", host: "localhost:3000", fetchSite: null, origin: null }
const sent = { ...opened, method: "POST", fetchSite: "same-origin", origin: "http://localhost:3000" }

describe("a request is let in", () => {
  test.each([
    ["opened from the address bar", opened],
    ["asked for its head", { ...opened, method: "HEAD" }],
    ["sent from a page of the site", sent],
    ["a panel filtered by several words of a kind", { ...opened, url: "/patients?risk=high&risk=low" }],
  ])("%s", (_title, request) => {
    expect(refusalOf(request, origins)).toBeNull()
  })
})

describe("a request is refused", () => {
  test.each(["TRACE", "OPTIONS", "PUT", "PATCH", "DELETE", "PROPFIND", "get", ""])(
    "by the method %s, which nothing here uses",
    (method) => {
      expect(refusalOf({ ...opened, method }, origins)?.status).toBe(405)
    },
  )

  test.each([
    ["under a foreign name", { ...opened, host: "elsewhere.test" }],
    ["under another port", { ...opened, host: "localhost:3001" }],
    ["without a name", { ...opened, host: null }],
    ["for a whole address, as a proxy is asked", { ...opened, url: "http://elsewhere.test/" }],
    ["for an address that begins with another host", { ...opened, url: "//elsewhere.test/" }],
    ["for an address that spells no text", { ...opened, url: "/%E0%A4%A" }],
    ["saying one thing twice", { ...opened, url: "/measures/bp-at-target?month=2026-01&month=2026-02" }],
    ["saying twice what the panel takes once", { ...opened, url: "/patients?month=2026-01&month=2026-02" }],
    ["sent by another site", { ...sent, fetchSite: "cross-site" }],
    ["sent by a page with no origin", { ...sent, origin: "null", fetchSite: null }],
    ["sent by nobody knows whom", { ...sent, origin: null, fetchSite: null }],
  ])("%s", (_title, request) => {
    expect(refusalOf(request, origins)?.status).toBe(400)
  })
})

test("what only the program says to itself is taken away from a request", () => {
  const kept = ["host", "cookie", "next-action", "sec-fetch-site", "rsc"]
  const taken = [
    ...["x-forwarded-for", "X-Forwarded-Host", "forwarded", "x-middleware-subrequest", "x-user-id"],
    ...["x-nonce", "x-original-url", "x-http-method-override", "content-security-policy", "x-real-ip"],
  ]

  expect(innerHeaders([...kept, ...taken])).toEqual(taken)
})
