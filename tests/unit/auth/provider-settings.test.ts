import { describe, expect, test } from "vitest"
import { rolesOf } from "../../../lib/auth/provider-sign-in"
import { providerSettings } from "../../../lib/auth/provider-settings"
import type { ProviderVariables } from "../../../lib/env"

const variables: ProviderVariables = {
  ...{ issuer: "https://provider.example.org", clientId: "filtrate", clientSecret: "for the test alone" },
  ...{ clientSecretFile: undefined, scope: "openid", roleClaim: "groups", acr: undefined },
  ...{ roleMap: "CN=Leads=clinic-lead, nurses=nurse, nurses=care-coordinator", factor: "provider" },
}

function settingsWith(more: Partial<ProviderVariables>) {
  const settings = providerSettings({ ...variables, ...more })
  if (!settings) throw new Error("the provider is not configured")
  return settings
}

describe("the clinic's provider", () => {
  test("is absent where no issuer is named", () => {
    expect(providerSettings(undefined)).toBeNull()
  })

  test.each([
    ["http://provider.example.org", "FILTRATE_OIDC_ISSUER must begin with https://."],
    ["ftp://127.0.0.1", "FILTRATE_OIDC_ISSUER must begin with https://."],
  ])("is refused at %s", (issuer, words) => {
    expect(() => settingsWith({ issuer })).toThrow(words)
  })

  test.each(["http://127.0.0.1:4000", "http://localhost:4000", "http://[::1]:4000"])(
    "may speak plain HTTP on this machine: %s",
    (issuer) => expect(settingsWith({ issuer }).issuer.href).toBe(`${issuer}/`),
  )

  test.each([
    [{ clientId: undefined }, "FILTRATE_OIDC_CLIENT_ID"],
    [{ clientSecret: undefined }, "FILTRATE_OIDC_CLIENT_SECRET"],
    [{ clientSecret: undefined, clientSecretFile: "/no/such/file" }, "FILTRATE_OIDC_CLIENT_SECRET_FILE"],
    [{ roleClaim: undefined }, "FILTRATE_OIDC_ROLE_CLAIM"],
    [{ roleMap: undefined }, "FILTRATE_OIDC_ROLE_MAP"],
    [{ roleMap: "nurses=physician" }, 'holds no role in "nurses=physician"'],
    [{ roleMap: "=nurse" }, 'holds no role in "=nurse"'],
    [{ roleMap: "nurses" }, 'holds no role in "nurses"'],
  ])("is refused with %j, naming what is wrong", (more, words) => {
    expect(() => settingsWith(more)).toThrow(words)
  })
})

describe("the roles of a sign-in", () => {
  test.each([
    [{ groups: ["nurses"] }, ["care-coordinator", "nurse"]],
    [{ groups: "CN=Leads" }, ["clinic-lead"]],
    [{ groups: ["CN=Leads", "nurses", "others"] }, ["clinic-lead", "care-coordinator", "nurse"]],
    [{ groups: ["clinic-lead", "NURSES", "nurses "] }, []],
    [{ groups: [{ name: "nurses" }, 7, null] }, []],
    [{ groups: { 0: "nurses" } }, []],
    [{}, []],
  ])("of %j are %j", (claims, expected) => {
    expect(rolesOf(settingsWith({}), claims)).toEqual(expected)
  })

  test("may stand deeper in the token, and in a claim whose name has dots", () => {
    const deep = settingsWith({ roleClaim: "realm_access.roles" })
    const named = settingsWith({ roleClaim: "https://clinic.example.org/roles" })

    expect(rolesOf(deep, { realm_access: { roles: ["CN=Leads"] } })).toEqual(["clinic-lead"])
    expect(rolesOf(deep, { realm_access: "CN=Leads" })).toEqual([])
    expect(rolesOf(named, { "https://clinic.example.org/roles": ["CN=Leads"] })).toEqual(["clinic-lead"])
  })

  test("are never those of what every object has", () => {
    expect(
      rolesOf(settingsWith({ roleClaim: "constructor.name", roleMap: "Object=administrator" }), {}),
    ).toEqual([])
  })
})
