-- CreateTable
CREATE TABLE "setting_changes" (
    "id" SERIAL NOT NULL,
    "made_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "origin" TEXT NOT NULL,
    "made_by" TEXT,
    "reason" TEXT NOT NULL,
    "before" JSONB NOT NULL,
    "after" JSONB NOT NULL,

    CONSTRAINT "setting_changes_pkey" PRIMARY KEY ("id")
);
