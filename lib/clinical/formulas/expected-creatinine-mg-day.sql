-- Estimates the creatinine that a complete 24-hour urine would hold, against which a collection is judged for completeness.
-- shape: weight_kg kg (20 to 300) -> DOUBLE mg per 24 hours
-- absent: null when weight is missing or not above 0
-- throws: nothing
-- source: Joossens 1984, Monitoring salt intake of the population: methodological considerations, in: Surveillance of the
--   dietary habits of the population with regard to cardiovascular diseases, Euronut report 2:61-73 (21 mg per kg, both
--   sexes); tabulated so in PMC5497310, Table 5
--   [read: PMC5497310, Table 5; the report itself from memory]
-- example: expected_creatinine_mg_day(80) = 1680
create or replace macro expected_creatinine_mg_day(weight_kg) as case when weight_kg > 0 then 21 * cast(weight_kg as double) end;
