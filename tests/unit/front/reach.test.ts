import { describe, expect, test } from "vitest"
import { readReach } from "../../../lib/reach"

const machine = { NODE_ENV: "test" } as const

describe("how the site is reached", () => {
  test("is this machine alone, unless told otherwise", () => {
    const reach = readReach({ ...machine, PORT: "4000" })

    expect(reach).toMatchObject({ host: "127.0.0.1", origin: undefined, trustedProxies: "" })
    expect(reach.ownOrigins).toEqual(["http://localhost:4000", "http://127.0.0.1:4000", "http://[::1]:4000"])
  })

  test("is one HTTPS address once that is named, and no other", () => {
    const origin = "https://filtrate.example.org"

    const reach = readReach({ ...machine, FILTRATE_ORIGIN: origin, FILTRATE_HOST: "0.0.0.0" })

    expect(reach.ownOrigins).toEqual([origin])
  })

  test.each([
    [{ FILTRATE_HOST: "0.0.0.0" }],
    [{ FILTRATE_HOST: "::" }],
    [{ FILTRATE_HOST: "0.0.0.0", FILTRATE_ORIGIN: "http://filtrate.example.org" }],
  ])("is never open to other machines without HTTPS: %j", (source) => {
    expect(() => readReach({ ...machine, ...source })).toThrow("would let other machines in")
  })

  test.each([
    [{ FILTRATE_TRUST_PROXY: "proxy.example.org" }, "FILTRATE_TRUST_PROXY"],
    [{ FILTRATE_HOST: "clinic.example.org" }, "FILTRATE_HOST"],
    [{ FILTRATE_ORIGIN: "filtrate.example.org" }, "FILTRATE_ORIGIN"],
    [{ FILTRATE_UPLOAD_LIMIT: "many" }, "FILTRATE_UPLOAD_LIMIT"],
  ])("says which variable cannot be used: %j", (source, name) => {
    expect(() => readReach({ ...machine, ...source })).toThrow(`The variable ${name} cannot be used`)
  })
})
