// What the test run uses of the package, which brings no types.
declare module "oidc-provider" {
  import type { RequestListener } from "node:http"

  export class Provider {
    constructor(issuer: string, configuration: Readonly<Record<string, unknown>>)
    callback(): RequestListener
    readonly Grant: new (of: { clientId: string; accountId: string }) => {
      addOIDCScope(scope: string): void
      save(): Promise<string>
    }
  }
}
