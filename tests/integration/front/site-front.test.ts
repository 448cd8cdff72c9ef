import { spawn, type ChildProcess } from "node:child_process"
import { once } from "node:events"
import { request } from "node:http"
import { connect } from "node:net"
import path from "node:path"
import { fileURLToPath, pathToFileURL } from "node:url"
import { setTimeout as delay } from "node:timers/promises"
import { afterEach, beforeEach, describe, expect, test } from "vitest"
import { freePort } from "../../helpers/filtrate"

const front = pathToFileURL(fileURLToPath(new URL("../../../lib/front/site-front.mjs", import.meta.url))).href
const program = path.resolve("tests/fixtures/answering-server.cjs")
const origin = "https://filtrate.example.org"
const proxy = "127.0.0.2"

type Answer = {
  status: number
  headers: Record<string, unknown>
  heard: Record<string, string>
  body: string
}

let child: ChildProcess | undefined
let port: number

beforeEach(async () => {
  port = await freePort()
})

afterEach(() => {
  child?.kill("SIGKILL")
})

describe("behind a proxy that is trusted", () => {
  beforeEach(() => start({ FILTRATE_ORIGIN: origin, FILTRATE_TRUST_PROXY: proxy }))
  const forwarded = {
    "x-forwarded-host": "filtrate.example.org",
    "x-forwarded-proto": "https",
    "x-forwarded-for": "198.51.100.7",
  }

  test("the sender, the host and the scheme are those it tells", async () => {
    const answer = await ask({ from: proxy, headers: forwarded })

    expect(answer.status).toBe(200)
    expect(answer.heard).toMatchObject({
      host: "filtrate.example.org",
      "x-forwarded-for": "198.51.100.7",
      "x-forwarded-proto": "https",
    })
    expect(answer.headers["strict-transport-security"]).toBe("max-age=31536000; includeSubDomains")
    expect(answer.headers["content-security-policy"]).toContain("upgrade-insecure-requests")
  })

  test("what anybody else tells counts for nothing", async () => {
    const named = await ask({ from: "127.0.0.3", headers: { ...forwarded, host: "filtrate.example.org" } })
    const unnamed = await ask({ from: "127.0.0.3", headers: forwarded })

    expect(named.heard["x-forwarded-for"]).toBe("127.0.0.3")
    expect(named.heard["x-forwarded-host"]).toBeUndefined()
    expect(unnamed.status).toBe(400)
  })

  test.each([
    ["that came to the proxy without HTTPS", { ...forwarded, "x-forwarded-proto": "http" }],
    ["under another name", { ...forwarded, "x-forwarded-host": "elsewhere.test" }],
  ])("a request %s is refused", async (_title, headers) => {
    expect((await ask({ from: proxy, headers })).status).toBe(400)
  })

  test("a form comes from a page of the public address and of no other", async () => {
    const send = (said: string) =>
      ask({ from: proxy, method: "POST", headers: { ...forwarded, origin: said } })

    expect((await send(origin)).status).toBe(200)
    expect((await send(`http://localhost:${port}`)).status).toBe(400)
    expect((await send("http://filtrate.example.org")).status).toBe(400)
  })

  test("a form without scripts names no page, and is heard as one of the public address", async () => {
    const send = (site: string) =>
      ask({
        ...{ from: proxy, method: "POST" },
        headers: { ...forwarded, origin: "null", "sec-fetch-site": site },
      })

    expect((await send("same-origin")).heard.origin).toBe(origin)
    expect((await send("cross-site")).status).toBe(400)
  })
})

describe("on this machine alone", () => {
  beforeEach(() => start({ FILTRATE_UPLOAD_LIMIT: "5000000" }))

  test("no header of a request reaches the site that only the program sets", async () => {
    const answer = await ask({
      headers: {
        ...{ "x-middleware-subrequest": "proxy", "x-user-id": "1", "x-forwarded-for": "198.51.100.7" },
        ...{
          "x-nonce": "chosen",
          "content-security-policy": "script-src 'nonce-chosen'",
          forwarded: "for=1",
        },
      },
    })

    const own = ["x-forwarded-for", "x-forwarded-proto", "x-nonce", "content-security-policy"]
    const heard = Object.keys(answer.heard).filter((name) => /^x-|forwarded|policy/.test(name))
    expect(heard.sort()).toEqual(own.sort())
    expect(answer.heard["x-forwarded-for"]).toBe("127.0.0.1")
    expect(JSON.stringify(answer.heard)).not.toContain("chosen")
    expect(answer.headers["strict-transport-security"]).toBeUndefined()
  })

  test("a header of its own never gives way to the site's", async () => {
    const answer = await ask({ path: "/cached" })

    expect(answer.headers["cache-control"]).toBe("no-store")
    expect((await ask({ path: "/_next/static/cached" })).headers["cache-control"]).toBe("public, immutable")
  })

  test.each([
    ["/settings", "1000001", 413],
    ["/settings", "1000000", 200],
    ["/api/imports", "5000001", 413],
    ["/api/imports", "5000000", 200],
  ])("a body sent to %s that announces %s bytes is answered with %i", async (place, length, status) => {
    const answer = await ask({
      ...{ path: place, method: "POST" },
      headers: { "sec-fetch-site": "same-origin", "content-length": length },
    })

    expect(answer.status).toBe(status)
  })

  test("a program that asks without pause is told when to come again, and others are not", async () => {
    let refused: Answer | undefined
    for (let round = 0; round < 60 && refused === undefined; round += 1)
      refused = (await Promise.all(Array.from({ length: 50 }, () => ask({})))).find(
        (one) => one.status === 429,
      )

    expect(refused?.status).toBe(429)
    expect(Number(refused?.headers["retry-after"])).toBeGreaterThanOrEqual(1)
    expect((await ask({ from: "127.0.0.4" })).status).toBe(200)
  })

  test("what fails inside is logged without its words", async () => {
    const said: string[] = []
    child?.stderr?.on("data", (chunk) => said.push(String(chunk)))

    await ask({ path: "/fails" })
    while (said.length === 0) await delay(20)

    expect(JSON.parse(said.join(""))).toMatchObject({ level: "error", kind: "RangeError", code: "E_VALUE" })
    expect(said.join("")).not.toContain("ZZCANARY")
  })
})

async function start(env: Record<string, string>): Promise<void> {
  child = spawn(process.execPath, ["--import", front, program], {
    env: { PATH: process.env.PATH, NODE_ENV: "production", PORT: String(port), ...env },
    stdio: ["ignore", "inherit", "pipe"],
  })
  for (;;) {
    const probe = connect(port, "127.0.0.1")
    const isOpen = await Promise.race([
      once(probe, "connect").then(
        () => true,
        () => false,
      ),
      delay(5000, false),
    ])
    probe.destroy()
    if (isOpen) return
    await delay(50)
  }
}

function ask(options: {
  from?: string
  path?: string
  method?: string
  headers?: Record<string, string>
}): Promise<Answer> {
  const { from = "127.0.0.1", headers = {}, ...rest } = options
  return new Promise((resolve, reject) => {
    const asked = request(
      {
        host: "127.0.0.1",
        port,
        localAddress: from,
        agent: false,
        headers: { host: `localhost:${port}`, ...headers },
        ...rest,
      },
      (response) => {
        let body = ""
        response.setEncoding("utf8").on("data", (chunk: string) => (body += chunk))
        response.once("end", () => {
          const heard: Record<string, string> = response.statusCode === 200 ? JSON.parse(body) : {}
          resolve({ status: response.statusCode ?? 0, headers: response.headers, heard, body })
          asked.destroy()
        })
      },
    )
    asked.once("error", reject)
    // A body that is announced is not sent: the answer must not wait for it.
    if (headers["content-length"] === undefined) asked.end()
    else asked.flushHeaders()
  })
}
