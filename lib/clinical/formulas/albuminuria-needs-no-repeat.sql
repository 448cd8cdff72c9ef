-- Tells whether a urine ratio is so high that no repeat is asked before it counts as confirmed albuminuria: ACR 620 mg/g or
-- 70 mg/mmol, PCR 1000 mg/g or 100 mg/mmol, and above. A number marked '<' lies just below itself.
-- shape: reported number as the laboratory gave it (0 or more), comparator '<', '<=', '>', '>=' or null, test 'uacr' or 'upcr',
--   unit 'mg/g', 'ug/mg', 'mg/mmol', 'g/mol' (PCR also 'g/g', 'mg/mg') -> BOOLEAN
-- absent: null when the number is missing or the unit is not one of the test's
-- throws: nothing
-- source: NICE 2021, NG203 Chronic kidney disease: assessment and management, section 1.1 (ACR 70 mg/mmol; the PCR pair is its
--   usual equivalent in the same guideline)
--   [from memory]
-- example: albuminuria_needs_no_repeat(69.9, null, 'uacr', 'mg/mmol') = false
create or replace macro albuminuria_needs_no_repeat(reported, comparator, test, unit) as
  case
    when test = 'uacr' and unit in ('mg/g', 'ug/mg') then reported > 620 or (reported = 620 and comparator is distinct from '<')
    when test = 'uacr' and unit in ('mg/mmol', 'g/mol') then reported > 70 or (reported = 70 and comparator is distinct from '<')
    when test = 'upcr' and unit in ('mg/g', 'ug/mg') then reported > 1000 or (reported = 1000 and comparator is distinct from '<')
    when test = 'upcr' and unit in ('g/g', 'mg/mg') then reported > 1 or (reported = 1 and comparator is distinct from '<')
    when test = 'upcr' and unit in ('mg/mmol', 'g/mol') then reported > 100 or (reported = 100 and comparator is distinct from '<')
  end
