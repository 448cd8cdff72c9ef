import { AppError, statusOf } from "../../lib/errors"
import { assertOwnHost } from "./same-origin"

type Handler<Context> = (request: Request, context: Context) => Promise<Response>

/**
 * Wraps a route: only this machine's own names are answered, an expected failure becomes its status with the words for the
 * person, any other goes on to the server's log.
 */
export function answering<Context>(handler: Handler<Context>): Handler<Context> {
  return async (request, context) => {
    try {
      assertOwnHost(request.headers)
      return await handler(request, context)
    } catch (error) {
      if (!(error instanceof AppError)) throw error
      return Response.json({ code: error.code, message: error.personMessage }, { status: statusOf(error) })
    }
  }
}
