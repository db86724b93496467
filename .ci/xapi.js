// Holds xAPI statements against a validator of record stores: node xapi.js FILE, where the package can be found.
const { readFileSync } = require("node:fs");
const validate = require("@learninglocker/xapi-validation").default;

const statements = JSON.parse(readFileSync(process.argv[2], "utf8"));
const faults = statements.flatMap((statement) => validate(statement).map((fault) => ({ id: statement.id, fault })));
for (const fault of faults) console.error(JSON.stringify(fault));
console.log(`${statements.length} statements, ${faults.length} faults`);

// It must be able to find one.
const spoilt = structuredClone(statements.find((statement) => statement.result?.score) ?? statements[0]);
if (spoilt.result?.score) spoilt.result.score.raw = String(spoilt.result.score.raw);
else spoilt.version = 1;
if (validate(spoilt).length === 0) {
  console.error("the validator takes a number written as text");
  process.exit(1);
}
process.exit(faults.length === 0 && statements.length > 0 ? 0 : 1);
