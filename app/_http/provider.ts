import "server-only"
import type { Caller } from "../../lib/access/caller"
import { signOutAtProvider } from "../../lib/auth/provider"
import { providerSettings, type ProviderSettings } from "../../lib/auth/provider-settings"
import { AppError } from "../../lib/errors"
import { siteOrigin } from "./site-origin"

/** Why a sign-in through the clinic's provider did not succeed, as the address of the sign-in says it, with the words for the person. */
export const providerProblems = {
  failed: "The sign-in through the clinic's provider did not succeed.",
  unreachable: "The clinic's provider does not answer.",
  "no-role": "The clinic's provider names no role for this account here. Roles are given there.",
  disabled: "This account is disabled.",
  another: "The clinic's provider vouched for another account than the one that was signed in.",
} as const

export type ProviderProblem = keyof typeof providerProblems

export function providerProblemOf(word: unknown): string | null {
  return typeof word === "string" && isProblem(word) ? providerProblems[word] : null
}

/** Where the provider leads back to; the provider knows this address and takes no other. */
export function returnAddress(): string {
  return `${siteOrigin()}/provider/return`
}

/** The provider of this clinic. Throws AppError("not-found") where it has none. */
export function requireProvider(): ProviderSettings {
  const settings = providerSettings()
  if (!settings) throw new AppError("not-found", "This clinic has no provider to sign in through.")
  return settings
}

/** Where someone who has signed out goes: past the provider that let them in, if it can sign them out too. */
export async function afterSignOut(caller: Caller | null): Promise<string> {
  const settings = caller?.session.method === "provider" ? providerSettings() : null
  if (!settings) return "/sign-in"
  try {
    return (await signOutAtProvider(settings, `${siteOrigin()}/sign-in`)) ?? "/sign-in"
  } catch (error) {
    if (error instanceof AppError) return "/sign-in"
    throw error
  }
}

function isProblem(word: string): word is ProviderProblem {
  return Object.hasOwn(providerProblems, word)
}
