import "server-only"
import { Secret, TOTP } from "otpauth"

const periodSeconds = 30

/** A seed for an authenticator app: 20 random bytes, as RFC 4226 asks for SHA-1. */
export function newSeed(): Uint8Array<ArrayBuffer> {
  return new Uint8Array(new Secret({ size: 20 }).bytes)
}

/**
 * The step of a six-digit code (RFC 6238, SHA-1, 30 seconds), one step early or late allowed; null when the code is wrong, or
 * its step is no later than the last that was used.
 */
export function stepOfCode(asked: {
  seed: Uint8Array<ArrayBuffer>
  code: string
  lastStep: bigint | null
  now: Date
}): bigint | null {
  const { seed, code, lastStep, now } = asked
  const digits = code.replaceAll(/\s/g, "")
  if (!/^\d{6}$/.test(digits)) return null
  const delta = totpOf(seed).validate({ token: digits, timestamp: now.getTime(), window: 1 })
  if (delta === null) return null
  const step = BigInt(Math.floor(now.getTime() / 1000 / periodSeconds) + delta)
  return lastStep !== null && step <= lastStep ? null : step
}

/** The address that an authenticator app reads from a picture. */
export function seedAddress(seed: Uint8Array<ArrayBuffer>, userName: string): string {
  return totpOf(seed, userName).toString()
}

/** The seed as a person types it: base32 in groups of four. */
export function seedText(seed: Uint8Array<ArrayBuffer>): string {
  return secretOf(seed).base32.replaceAll(/(.{4})(?=.)/g, "$1 ")
}

function totpOf(seed: Uint8Array<ArrayBuffer>, label = "account"): TOTP {
  return new TOTP({ issuer: "Filtrate", label, secret: secretOf(seed), period: periodSeconds, digits: 6 })
}

function secretOf(seed: Uint8Array<ArrayBuffer>): Secret {
  return new Secret({ buffer: seed.buffer })
}
