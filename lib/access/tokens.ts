import { createHash, randomBytes } from "node:crypto"

const tokenBytes = 32

/** A secret that opens something: 32 random bytes as base64url, 43 characters. */
export function newToken(): string {
  return randomBytes(tokenBytes).toString("base64url")
}

/** What is stored in its place: SHA-256, 32 bytes. A token is random enough to need no salt. */
export function hashToken(token: string): Uint8Array<ArrayBuffer> {
  return new Uint8Array(createHash("sha256").update(token, "utf8").digest())
}
