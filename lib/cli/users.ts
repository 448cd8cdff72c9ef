import { InvalidArgumentError, type Command } from "commander"
import { isRole, roles, type Role } from "../access/roles"
import { linkAddress } from "../auth/setup-link"
import { readEnvironment } from "../env"
import { AppError } from "../errors"
import { PersonName, UserName } from "../store/accounts"
import { record } from "../store/audit"
import { commandActor } from "../store/audit-actors"
import { openClient } from "../store/client"
import { openDatabase } from "../store/database"
import type { PrismaClient } from "../store/generated/client"
import { inviteUser, listUsers, setDisabled } from "../store/users"
import { print } from "./print"
import { say } from "./say"

type Options = { name?: string; role: Role[] }

export function register(program: Command): void {
  program
    .command("users [action] [userName]")
    .description("list the accounts; invite somebody, with a link that works once; or disable an account")
    .option("--name <text>", "for an invitation: the person's name")
    .option("--role <role>", `for an invitation: ${roles.join(", ")}; may be given several times`, gather, [])
    .action(async (action = "list", userName = "", options: Options) => {
      const database = await openDatabase({ say })
      const client = openClient(database.url)
      try {
        await print(await act(client, { action, userName, options }))
      } finally {
        await client.$disconnect()
        await database.close()
      }
    })
}

async function act(
  client: PrismaClient,
  asked: { action: string; userName: string; options: Options },
): Promise<string> {
  if (asked.action === "list") {
    await record(client, { by: commandActor(), action: "users.list" })
    return tableOf(client)
  }
  const name = UserName.safeParse(asked.userName)
  if (!name.success) throw new AppError("bad-request", "A user name is needed: letters, digits, . - _ @")
  if (asked.action === "invite") return inviteOne(client, name.data, asked.options)
  if (asked.action === "disable") return disableOne(client, name.data)
  throw new AppError("bad-request", "The actions are list, invite and disable.")
}

async function inviteOne(client: PrismaClient, userName: string, options: Options): Promise<string> {
  const name = PersonName.safeParse(options.name)
  if (!name.success || options.role.length === 0)
    throw new AppError("bad-request", "An invitation needs a --name and at least one --role.")
  const shape = { name: name.data, roles: options.role, grants: [], staffId: null, sites: [] }
  const answer = await inviteUser(client, { userName, shape, by: commandActor(), now: new Date() })
  if (answer.status === "taken") throw new AppError("bad-request", "This user name is taken.")
  const { origin, port } = readEnvironment()
  return linkAddress(origin ?? `http://localhost:${port}`, answer.token)
}

async function disableOne(client: PrismaClient, userName: string): Promise<string> {
  const user = (await listUsers(client)).find((one) => one.userName === userName)
  if (!user) throw new AppError("not-found", "There is no such account.")
  const { id, version } = user
  const about = { id, version, isDisabled: true, by: commandActor(), now: new Date() }
  const answer = await setDisabled(client, about)
  if (answer === "last-administrator")
    throw new AppError("bad-request", "The last administrator who can sign in keeps the account.")
  if (answer !== "done") throw new AppError("bad-request", "The account was changed meanwhile. Try again.")
  return `${userName} is disabled; their sessions have ended.`
}

async function tableOf(client: PrismaClient): Promise<string> {
  const users = await listUsers(client)
  return users
    .map((user) =>
      [user.userName, user.name, user.roles.join(" "), user.isDisabled ? "disabled" : "enabled"].join("\t"),
    )
    .join("\n")
}

function gather(one: string, before: Role[]): Role[] {
  if (!isRole(one)) throw new InvalidArgumentError(`The roles are ${roles.join(", ")}.`)
  return [...before, one]
}
