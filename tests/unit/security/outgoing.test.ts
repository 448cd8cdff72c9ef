import { createServer, type Server } from "node:http"
import { once } from "node:events"
import { afterAll, afterEach, beforeAll, describe, expect, test, vi } from "vitest"
import { askOutside } from "../../../lib/outgoing"

const asked: string[] = []
let server: Server
let origin: string

beforeAll(async () => {
  server = createServer((request, response) => {
    asked.push(request.url ?? "")
    if (request.url === "/leads-on") response.writeHead(302, { location: `${origin}/elsewhere` })
    response.end("here")
  }).listen(0, "127.0.0.1")
  await once(server, "listening")
  const address = server.address()
  origin = `http://127.0.0.1:${typeof address === "object" ? address?.port : 0}`
})

afterAll(() => server.close())

afterEach(() => {
  vi.unstubAllEnvs()
  asked.length = 0
})

describe("a call to another server", () => {
  test("goes to one that the clinic named", async () => {
    vi.stubEnv("FILTRATE_OUTGOING", `https://provider.example.org, ${origin}`)

    const answer = await askOutside(`${origin}/metadata`)

    expect(await answer.text()).toBe("here")
  })

  test("goes to the clinic's own provider, whatever path its issuer has", async () => {
    vi.stubEnv("FILTRATE_OIDC_ISSUER", `${origin}/realms/clinic`)

    const answer = await askOutside(`${origin}/metadata`)

    expect(await answer.text()).toBe("here")
  })

  test("goes nowhere where none is named", async () => {
    await expect(askOutside(`${origin}/metadata`)).rejects.toThrow("none of those that Filtrate may call")

    expect(asked).toEqual([])
  })

  test.each([
    "http://169.254.169.254/latest/meta-data",
    "http://localhost:5432/",
    "file:///etc/passwd",
    "https://provider.example.org.elsewhere.test/",
    "https://provider.example.org:8443/",
    "http://provider.example.org/",
    "https://someone@provider.example.org/",
    "https://provider.example.org@elsewhere.test/",
    "not an address",
  ])("is refused to %s", async (address) => {
    vi.stubEnv("FILTRATE_OUTGOING", "https://provider.example.org")

    await expect(askOutside(address)).rejects.toThrow("none of those that Filtrate may call")
  })

  test("is not led on to another address", async () => {
    vi.stubEnv("FILTRATE_OUTGOING", origin)

    await expect(askOutside(`${origin}/leads-on`)).rejects.toThrow()

    expect(asked).toEqual(["/leads-on"])
  })
})
