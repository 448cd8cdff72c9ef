import type { Caller } from "../../lib/access/caller"
import type { Capability } from "../../lib/access/permissions"
import { AppError, statusOf } from "../../lib/errors"
import { logFailure, newIncident } from "../../lib/log"
import { requireUser } from "./require-user"
import { assertOwnHost } from "./same-origin"

type Handler<Context> = (request: Request, context: Context) => Promise<Response>
/** Who asks, beside what the framework tells a route. */
export type Called = { caller: Caller }

type CallerHandler<Context> = (request: Request, context: Context & Called) => Promise<Response>

/**
 * Wraps a route: it is answered for who is signed in and may, an expected failure becomes its status with the words for
 * the person, any other a number under which the log has it.
 */
export function answering<Context>(what: Capability, handler: CallerHandler<Context>): Handler<Context> {
  return answeringAnyone(async (request, context) => {
    const caller = await requireUser(what)
    return handler(request, { ...context, caller })
  })
}

/** The same for what answers also who is not signed in. */
export function answeringAnyone<Context>(handler: Handler<Context>): Handler<Context> {
  return async (request, context) => {
    try {
      assertOwnHost(request.headers)
      return await handler(request, context)
    } catch (error) {
      if (!(error instanceof AppError)) return unexpected(error)
      return expected(error)
    }
  }
}

function expected(error: AppError): Response {
  const wait = error.retryAfterSeconds
  return Response.json(
    { code: error.code, message: error.personMessage },
    { status: statusOf(error), ...(wait === undefined ? {} : { headers: { "retry-after": String(wait) } }) },
  )
}

/** Nothing of what went wrong leaves the server but the number of the incident. */
function unexpected(error: unknown): Response {
  const incident = newIncident()
  logFailure(error, incident)
  const message = `This could not be answered. The log has it as incident ${incident}.`
  return Response.json({ code: "unexpected", message, incident }, { status: 500 })
}
