-- Erasure of a person's record: who asked for it and why, the numbers that are not taken in again (only a keyed hash of each),
-- and the figures of the closed months as they stood before.

-- CreateTable
CREATE TABLE "erasures" (
    "id" SERIAL NOT NULL,
    "public_id" UUID NOT NULL,
    "reason" TEXT NOT NULL,
    "basis" TEXT NOT NULL,
    "asked_by" TEXT NOT NULL,
    "asked_at" TIMESTAMPTZ(3) NOT NULL,
    "withdrawn_at" TIMESTAMPTZ(3),
    "erased_at" TIMESTAMPTZ(3),
    "erased_by" TEXT,
    "cleared_at" TIMESTAMPTZ(3),
    "settings" JSONB,

    CONSTRAINT "erasures_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "erased_numbers" (
    "number_hash" BYTEA NOT NULL,
    "erasure_id" INTEGER NOT NULL,

    CONSTRAINT "erased_numbers_pkey" PRIMARY KEY ("number_hash")
);

-- CreateTable
CREATE TABLE "kept_figures" (
    "erasure_id" INTEGER NOT NULL,
    "as_of" DATE NOT NULL,
    "figures" JSONB NOT NULL,

    CONSTRAINT "kept_figures_pkey" PRIMARY KEY ("erasure_id","as_of")
);

-- AddForeignKey
ALTER TABLE "erased_numbers" ADD CONSTRAINT "erased_numbers_erasure_id_fkey" FOREIGN KEY ("erasure_id") REFERENCES "erasures"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "kept_figures" ADD CONSTRAINT "kept_figures_erasure_id_fkey" FOREIGN KEY ("erasure_id") REFERENCES "erasures"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
