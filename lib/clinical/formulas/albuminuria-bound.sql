-- Gives the number at which a urine category begins to end, in the unit the laboratory reported: A1 lies below the limit
-- of 'A1', A2 reaches up to the limit of 'A2'. The mg/mmol limits are rounded by the guideline, they are no conversions.
-- shape: test 'uacr' or 'upcr', unit 'mg/g', 'ug/mg', 'mg/mmol', 'g/mol' (PCR also 'g/g', 'mg/mg'), category 'A1' or 'A2'
--   -> DECIMAL in that unit
-- absent: null for any other test, unit or category
-- throws: nothing
-- source: KDIGO 2012, Clinical practice guideline for the evaluation and management of CKD,
--   Kidney Int Suppl 3:1-150, Table 7, doi:10.1038/kisup.2012.73
--   [read: reprint of Table 7 in PMC10200071, Table 11]
-- example: albuminuria_bound('uacr', 'mg/mmol', 'A2') = 30
create or replace macro albuminuria_bound(test, unit, category) as
  case
    when test = 'uacr' and unit in ('mg/g', 'ug/mg') then case category when 'A1' then 30 when 'A2' then 300 end
    when test = 'uacr' and unit in ('mg/mmol', 'g/mol') then case category when 'A1' then 3 when 'A2' then 30 end
    when test = 'upcr' and unit in ('mg/g', 'ug/mg') then case category when 'A1' then 150 when 'A2' then 500 end
    when test = 'upcr' and unit in ('mg/mmol', 'g/mol') then case category when 'A1' then 15 when 'A2' then 50 end
    when test = 'upcr' and unit in ('g/g', 'mg/mg') then case category when 'A1' then 0.15 when 'A2' then 0.5 end
  end;
