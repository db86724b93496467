"use strict";
// Marks each question when it is checked; nothing is kept, nothing is sent.
(() => {
  const said = JSON.parse(document.getElementById("said").textContent);
  const score = document.getElementById("score");
  const forms = [...document.querySelectorAll("form")];
  const first = new Map();
  const fill = (text, values) => text.replace(/\{(\w+)\}/g, (_all, name) => values[name]);

  function tally() {
    const right = [...first.values()].filter(Boolean).length;
    score.textContent = fill(said.score, { right, done: first.size, count: forms.length });
  }

  // What was typed, in the unit asked for; a text says what is unclear. The same reading as trainer/quiz/measure.py.
  function typed(text, units) {
    const plain = text.normalize("NFKC").replace(/’/g, "'").split(/\s+/).filter(Boolean).join(" ").replace(/\.$/, "");
    const found = /^([-+\u2212\u2013]?) ?([0-9][0-9 .,']*?|[.,][0-9]+) ?([^0-9 .,'].*)?$/.exec(plain);
    if (!found) return said.number;
    const figures = found[2].trim();
    let number;
    if (/^[1-9][0-9]{0,2}(,[0-9]{3})+(\.[0-9]+)?$/.test(figures)) number = figures.replace(/,/g, "");
    else if (/^[1-9][0-9]{0,2}(\.[0-9]{3})+,[0-9]+$/.test(figures)) number = figures.replace(/\./g, "").replace(",", ".");
    else if (/^[1-9][0-9]{0,2}([ '])[0-9]{3}(\1[0-9]{3})*([.,][0-9]+)?$/.test(figures) || /^[0-9]*([.,][0-9]+)?$/.test(figures))
      number = figures.replace(/[ ']/g, "").replace(",", ".");
    else return said.number;
    const unit = (found[3] || "").trim().toLowerCase();
    if (unit && !(unit in units)) return said.unit;
    return Number(number) * (unit ? units[unit] : 1) * (/[-\u2212\u2013]/.test(found[1]) ? -1 : 1);
  }

  function judge(form) {
    const judged = JSON.parse(form.dataset.judged), way = form.dataset.way;
    if (way === "number") {
      const value = typed(form.querySelector("input").value, judged.units);
      if (typeof value === "string") return { unclear: value };
      const near = (to) => Math.abs(value - to) <= judged.near + 1e-6;
      return { right: near(judged.value), why: (judged.slips.find(([to]) => near(to)) || [])[1] };
    }
    const chosen = way === "order" || way === "match"
      ? [...form.querySelectorAll("select")].map((box) => box.value)
      : [...form.querySelectorAll("input:checked")].map((box) => box.value);
    if (!chosen.length) return { unclear: said.choose };
    if (chosen.includes("")) return { unclear: said.all };
    if (way === "order" && new Set(chosen).size < chosen.length) return { unclear: said.once };
    const right = chosen.map(Number).join() === judged.right.join();
    return { right, why: [...new Set(chosen.map((at) => judged.slips[at]).filter(Boolean))].join(" ") };
  }

  function line(box, text, strong) {
    const part = document.createElement("p");
    part.append(strong ? Object.assign(document.createElement("strong"), { textContent: text }) : text);
    box.append(part);
  }

  for (const form of forms) {
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      const box = form.querySelector(".verdict"), more = form.parentElement.querySelector("details");
      const found = judge(form);
      box.replaceChildren();
      box.className = "verdict" + (found.unclear ? "" : found.right ? " right" : " wrong");
      if (found.unclear) return line(box, found.unclear, true);
      if (!first.has(form)) first.set(form, found.right);
      line(box, found.right ? said.right : said.wrong, true);
      if (!found.right && found.why) line(box, found.why);
      if (!found.right) line(box, fill(said.answer, { answer: more.querySelector("strong").textContent }));
      more.open = true;
      tally();
    });
  }
  // From a plan one goes back to the question that one came from.
  for (const link of document.querySelectorAll('article a[href^="#plan-"]')) {
    link.addEventListener("click", () => {
      document.querySelector(`${link.getAttribute("href")} .back`).href = `#${link.closest("article").id}`;
    });
  }
  tally();
})();
