import { createHash, generateKeyPairSync, randomBytes, sign, type KeyObject } from "node:crypto"
import { isoCBOR } from "@simplewebauthn/server/helpers"

/** What an authenticator says of the person: there, and verified (Web Authentication Level 2, section 6.1, flags). */
const present = 0x01
const verified = 0x04
const hasCredential = 0x40

export type Made = { options: { challenge: string; user: { id: string } }; origin: string }
export type Asked = {
  options: { challenge: string }
  origin: string
  counter?: number
  isVerified?: false
  userHandle?: string
  rpId?: string
  type?: string
}

export type SoftwarePasskey = ReturnType<typeof newPasskey>

/**
 * A passkey in software, for answers that a real one would never give: a P-256 key and the bytes of Web Authentication
 * Level 2, sections 5.8.1, 6.1 and 6.5 (from memory; the browser tests use a browser's own authenticator).
 */
export function newPasskey() {
  const id = randomBytes(20).toString("base64url")
  const keys = generateKeyPairSync("ec", { namedCurve: "P-256" })
  let owner = ""

  function make({ options, origin }: Made, flags = present | verified) {
    owner = options.user.id
    const credential = Buffer.from(id, "base64url")
    const length = Buffer.alloc(2)
    length.writeUInt16BE(credential.length)
    const authData = Buffer.concat([
      head(new URL(origin).hostname, { flags: flags | hasCredential, counter: 0 }),
      ...[Buffer.alloc(16), length, credential, coseKey(keys.publicKey)],
    ])
    const attestation = new Map<string, string | Map<string, string> | Uint8Array<ArrayBuffer>>([
      ["fmt", "none"],
      ["attStmt", new Map<string, string>()],
      ["authData", new Uint8Array(authData)],
    ])
    return answerOf(id, {
      clientDataJSON: clientData("webauthn.create", { challenge: options.challenge, origin }),
      attestationObject: base64(isoCBOR.encode(attestation)),
      transports: ["internal"],
    })
  }

  function signFor(asked: Asked) {
    const { options, origin, counter = 0, isVerified = true, userHandle = owner } = asked
    const flags = isVerified ? present | verified : present
    const authData = head(asked.rpId ?? new URL(origin).hostname, { flags, counter })
    const told = clientData(asked.type ?? "webauthn.get", { challenge: options.challenge, origin })
    const hash = createHash("sha256").update(Buffer.from(told, "base64url")).digest()
    const signature = sign("sha256", Buffer.concat([authData, hash]), keys.privateKey)
    return answerOf(id, {
      ...{ clientDataJSON: told, authenticatorData: base64(authData), signature: base64(signature) },
      userHandle,
    })
  }

  return { id, make, sign: signFor }
}

function answerOf<Response>(id: string, response: Response) {
  return { id, rawId: id, type: "public-key", response, clientExtensionResults: {} }
}

function head(rpId: string, { flags, counter }: { flags: number; counter: number }): Buffer {
  const rest = Buffer.alloc(5)
  rest.writeUInt8(flags, 0)
  rest.writeUInt32BE(counter, 1)
  return Buffer.concat([createHash("sha256").update(rpId).digest(), rest])
}

function coseKey(key: KeyObject): Uint8Array {
  const { x = "", y = "" } = key.export({ format: "jwk" })
  return isoCBOR.encode(
    new Map<number, number | Uint8Array<ArrayBuffer>>([
      ...([
        [1, 2],
        [3, -7],
        [-1, 1],
      ] as const),
      [-2, new Uint8Array(Buffer.from(x, "base64url"))],
      [-3, new Uint8Array(Buffer.from(y, "base64url"))],
    ]),
  )
}

function clientData(type: string, of: { challenge: string; origin: string }): string {
  return base64(Buffer.from(JSON.stringify({ type, ...of, crossOrigin: false }), "utf8"))
}

function base64(bytes: Uint8Array): string {
  return Buffer.from(bytes).toString("base64url")
}
