-- CreateTable
CREATE TABLE "passkey_challenges" (
    "token_hash" BYTEA NOT NULL,
    "purpose" TEXT NOT NULL,
    "user_id" UUID,
    "challenge" TEXT NOT NULL,
    "ends_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "passkey_challenges_pkey" PRIMARY KEY ("token_hash")
);

-- CreateIndex
CREATE INDEX "passkey_challenges_ends_at_idx" ON "passkey_challenges"("ends_at");
