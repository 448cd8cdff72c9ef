-- Row security follows each row's patient to the record in force.
-- CreateIndex
CREATE INDEX "patient_records_patient_id_idx" ON "patient_records"("patient_id");
