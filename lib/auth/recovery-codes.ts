import "server-only"
import { randomBytes } from "node:crypto"
import { Secret } from "otpauth"

const howMany = 10
const codeBytes = 15

/** Ten codes for a lost second factor: 120 random bits each, as 24 letters and digits in groups of four. */
export function newRecoveryCodes(): string[] {
  return Array.from({ length: howMany }, () => grouped(base32(randomBytes(codeBytes))))
}

/** A code as it was made, however it was typed; null when it can be none. */
export function tidyRecoveryCode(typed: string): string | null {
  const plain = typed.toUpperCase().replaceAll(/[^A-Z2-7]/g, "")
  return plain.length === (codeBytes * 8) / 5 ? grouped(plain) : null
}

function grouped(code: string): string {
  return code.replaceAll(/(.{4})(?=.)/g, "$1-")
}

function base32(bytes: Uint8Array): string {
  return new Secret({ buffer: new Uint8Array(bytes).buffer }).base32
}
