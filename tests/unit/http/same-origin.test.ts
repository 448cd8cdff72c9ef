import { describe, expect, test, vi } from "vitest"
import { answering } from "../../../app/_http/answer"
import { requireUser } from "../../../app/_http/require-user"
import { assertSameOrigin } from "../../../app/_http/same-origin"
import { AppError } from "../../../lib/errors"

vi.mock("../../../app/_http/require-user", () => ({ requireUser: vi.fn() }))

const host = "127.0.0.1:3000"

describe("a request that changes something comes from a page of this site", () => {
  test.each([
    ["says so in Sec-Fetch-Site", { host, "sec-fetch-site": "same-origin" }],
    ["says so in Origin", { host, origin: "http://127.0.0.1:3000" }],
    ["says so in both", { host, origin: "http://127.0.0.1:3000", "sec-fetch-site": "same-origin" }],
    ["as a form without scripts", { host, origin: "null", "sec-fetch-site": "same-origin" }],
    ["by the machine's other names", { host: "localhost:3000", origin: "http://localhost:3000" }],
    ["by the machine's other names", { host: "[::1]:3000", origin: "http://[::1]:3000" }],
  ])("%s", (_title, headers) => {
    expect(() => assertSameOrigin(new Headers(headers))).not.toThrow()
  })

  test.each([
    ["another site", { host, origin: "https://elsewhere.test" }],
    ["another port of this machine", { host, origin: "http://127.0.0.1:8080" }],
    [
      "another site, with an origin that looks right",
      { host, origin: "http://127.0.0.1:3000", "sec-fetch-site": "cross-site" },
    ],
    ["a sibling site", { host, "sec-fetch-site": "same-site" }],
    ["a page without an origin", { host, origin: "null" }],
    ["a framed page without an origin", { host, origin: "null", "sec-fetch-site": "cross-site" }],
    ["nobody says who", { host }],
    [
      "a foreign name that was pointed at this machine",
      { host: "elsewhere.test:3000", origin: "http://elsewhere.test:3000" },
    ],
    [
      "a name that only begins right",
      { host: "127.0.0.1.elsewhere.test", origin: "http://127.0.0.1.elsewhere.test" },
    ],
    ["a request without a host", { origin: "http://127.0.0.1:3000" }],
  ])("refuses %s", (_title, headers) => {
    expect(() => assertSameOrigin(new Headers(headers))).toThrow("did not come from a page of this site")
  })
})

describe("a route's answer", () => {
  const ask = (handler: () => Promise<Response>, headers: Record<string, string> = { host }) =>
    answering("people.see", handler)(new Request("http://127.0.0.1:3000/api", { headers }), {})

  test("gives an expected failure its status and the words for the person", async () => {
    const answer = await ask(() => Promise.reject(new AppError("not-found", "There is no such import.")))

    expect(answer.status).toBe(404)
    expect(await answer.json()).toEqual({ code: "not-found", message: "There is no such import." })
  })

  test("is given to nobody who may not have it, before anything is read", async () => {
    vi.mocked(requireUser).mockRejectedValueOnce(new AppError("not-signed-in", "Sign in first."))
    const read = vi.fn(() => Promise.resolve(new Response("rows")))

    const answer = await ask(read)

    expect(requireUser).toHaveBeenCalledWith("people.see")
    expect(answer.status).toBe(401)
    expect(read).not.toHaveBeenCalled()
  })

  test("tells nothing of any other failure but a number, under which the log has its place", async () => {
    const logged = vi.spyOn(process.stderr, "write").mockReturnValue(true)

    const answer = await ask(() => Promise.reject(new RangeError("broken at ZZCANARY")))

    const said = await answer.json()
    expect(answer.status).toBe(500)
    expect(said.message).toBe(`This could not be answered. The log has it as incident ${said.incident}.`)
    const line = String(logged.mock.calls.at(-1)?.[0])
    expect(JSON.parse(line)).toMatchObject({ kind: "RangeError", incident: said.incident, level: "error" })
    expect(line).toContain("same-origin.test.ts")
    expect(line + JSON.stringify(said)).not.toContain("ZZCANARY")
    logged.mockRestore()
  })

  test("is refused under a name that is not this machine's", async () => {
    const answer = await ask(() => Promise.resolve(new Response("rows")), { host: "elsewhere.test" })

    expect(answer.status).toBe(400)
  })
})
