import { afterEach, beforeEach, expect, test, vi } from "vitest"
import { clearSessionCookie, writeSessionCookie } from "../../../app/_http/session-cookie"

const set = vi.hoisted(() => vi.fn())
vi.mock("next/headers", () => ({ cookies: () => Promise.resolve({ set }) }))

beforeEach(() => set.mockClear())
afterEach(() => vi.unstubAllEnvs())

const shut = { httpOnly: true, sameSite: "lax", path: "/" }

test("behind HTTPS the cookie is bound to this host and to HTTPS, for as long as a session may last", async () => {
  vi.stubEnv("FILTRATE_ORIGIN", "https://filtrate.example.org")

  await writeSessionCookie("a-token")

  expect(set).toHaveBeenCalledWith("__Host-filtrate", "a-token", {
    ...shut,
    secure: true,
    maxAge: 12 * 60 * 60,
  })
})

test("on this machine alone it has no prefix, which a browser takes by HTTPS only, and is no easier to read", async () => {
  vi.stubEnv("FILTRATE_ORIGIN", "")

  await writeSessionCookie("a-token")

  expect(set).toHaveBeenCalledWith("filtrate", "a-token", { ...shut, secure: false, maxAge: 12 * 60 * 60 })
})

test("it is taken away under the same name and shape", async () => {
  vi.stubEnv("FILTRATE_ORIGIN", "https://filtrate.example.org")

  await clearSessionCookie()

  expect(set).toHaveBeenCalledWith("__Host-filtrate", "", { ...shut, secure: true, maxAge: 0 })
})
