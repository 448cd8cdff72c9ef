import type { Caller } from "../../lib/access/caller"
import type { Capability } from "../../lib/access/permissions"
import { AppError, statusOf } from "../../lib/errors"
import { requireUser } from "./require-user"
import { assertOwnHost } from "./same-origin"

type Handler<Context> = (request: Request, context: Context) => Promise<Response>
type CallerHandler<Context> = (request: Request, context: Context & { caller: Caller }) => Promise<Response>

/**
 * Wraps a route: it is answered for who is signed in and may, an expected failure becomes its status with the words for
 * the person, any other goes on to the server's log.
 */
export function answering<Context>(what: Capability, handler: CallerHandler<Context>): Handler<Context> {
  return async (request, context) => {
    try {
      assertOwnHost(request.headers)
      const caller = await requireUser(what)
      return await handler(request, { ...context, caller })
    } catch (error) {
      if (!(error instanceof AppError)) throw error
      return Response.json({ code: error.code, message: error.personMessage }, { status: statusOf(error) })
    }
  }
}
