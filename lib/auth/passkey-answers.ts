import "server-only"
import { z } from "zod"

const Base64 = z
  .string()
  .max(20_000)
  .regex(/^[A-Za-z0-9_-]*$/)
const CredentialId = Base64.min(1).max(1400)

const Shared = z.object({
  id: CredentialId,
  rawId: CredentialId,
  type: z.literal("public-key"),
})

/** What a browser sends of a passkey it has made (Web Authentication, RegistrationResponseJSON). */
export const MadePasskey = Shared.extend({
  response: z.object({
    clientDataJSON: Base64,
    attestationObject: Base64,
    transports: z.array(z.string().max(30)).max(10).default([]),
  }),
}).transform((answer) => ({ ...answer, clientExtensionResults: {} }))

/** What a browser sends of a passkey that has signed (Web Authentication, AuthenticationResponseJSON). */
export const SignedByPasskey = Shared.extend({
  response: z.object({
    clientDataJSON: Base64,
    authenticatorData: Base64,
    signature: Base64,
    userHandle: z
      .union([Base64, z.null()])
      .optional()
      .transform((handle) => handle ?? ""),
  }),
}).transform((answer) => ({ ...answer, clientExtensionResults: {} }))
