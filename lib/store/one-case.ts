import "server-only"
import type { Scope } from "../access/scope"
import type { PrismaClient } from "./generated/client"
import { inScope } from "./in-scope"

/** The public id of the person whose case it is. Throws where the case is out of scope. */
export async function publicIdOfCase(
  client: PrismaClient,
  asked: { scope: Scope; id: number },
): Promise<string> {
  return inScope(client, asked.scope, async (transaction) => {
    const { patientId } = await transaction.outreachCase.findUniqueOrThrow({ where: { id: asked.id } })
    const { publicId } = await transaction.patient.findUniqueOrThrow({ where: { patientId } })
    return publicId
  })
}
