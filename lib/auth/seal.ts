import "server-only"
import { createCipheriv, createDecipheriv, randomBytes } from "node:crypto"

const nonceBytes = 12
const tagBytes = 16

/** Seals bytes with AES-256-GCM for one use, `about`, and no other: nonce, tag and what is sealed, one after the other. */
export function seal(key: Buffer, plain: Uint8Array, about: string): Uint8Array<ArrayBuffer> {
  const nonce = randomBytes(nonceBytes)
  const cipher = createCipheriv("aes-256-gcm", key, nonce).setAAD(Buffer.from(about, "utf8"))
  const sealed = Buffer.concat([cipher.update(plain), cipher.final()])
  return new Uint8Array(Buffer.concat([nonce, cipher.getAuthTag(), sealed]))
}

/** What was sealed; null when it was changed, sealed for another use, or with another key. */
export function unseal(key: Buffer, sealed: Uint8Array, about: string): Buffer | null {
  if (sealed.length < nonceBytes + tagBytes) return null
  const nonce = sealed.subarray(0, nonceBytes)
  const tag = sealed.subarray(nonceBytes, nonceBytes + tagBytes)
  const decipher = createDecipheriv("aes-256-gcm", key, nonce, { authTagLength: tagBytes })
  decipher.setAAD(Buffer.from(about, "utf8")).setAuthTag(tag)
  try {
    return Buffer.concat([decipher.update(sealed.subarray(nonceBytes + tagBytes)), decipher.final()])
  } catch {
    return null
  }
}
