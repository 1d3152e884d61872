// A pour sheet at the stove: every tick and every reading is kept at once, by
// itself, so that a reload or a second screen loses nothing. What could not be
// kept is said, and tried again.
(() => {
  const form = document.querySelector("form[data-psheet]");
  if (!form) return;
  const note = form.querySelector("[data-psheet-note]");
  const keep = form.querySelector("[data-psheet-keep]");
  if (keep) keep.hidden = true;
  const say = text => { if (note) note.textContent = text; };
  const clock = () => new Intl.DateTimeFormat("en-GB", { hour: "2-digit", minute: "2-digit", timeZone: document.documentElement.dataset.zone || undefined }).format(new Date(window.rimwardNow ? window.rimwardNow() : Date.now()));
  // What is wrong with a reading stands beside it; the step is not done then.
  const wrong = (step, text) => {
    let p = step.querySelector(".psheet-wrong");
    if (!p && !text) return;
    if (!p) {
      p = document.createElement("p");
      p.className = "problem psheet-wrong";
      p.setAttribute("role", "alert");
      step.querySelector(".psheet-tick").append(p);
    }
    p.textContent = text;
    const done = step.querySelector("input[type=checkbox]");
    if (text && done) { done.checked = false; step.classList.remove("is-done"); }
  };
  const waiting = new Map();
  let timer = 0;

  const send = async step => {
    const key = step.dataset.psheetStep;
    const body = new URLSearchParams({ only: key });
    for (const el of step.querySelectorAll("input")) if (el.type !== "checkbox" || el.checked) body.append(el.name, el.value);
    const text = body.toString();
    waiting.set(step, text);
    try {
      const r = await fetch(form.action, { method: "POST", body, keepalive: true, headers: { Accept: "text/plain" } });
      const said = r.headers.get("Content-Type") || "";
      if (waiting.get(step) !== text) return;
      if (r.status === 422 && said.startsWith("text/plain")) { waiting.delete(step); wrong(step, await r.text()); say(""); return; }
      if (!r.ok) throw new Error(String(r.status));
      waiting.delete(step);
      wrong(step, "");
      say("kept " + clock());
    } catch (e) {
      say("Not kept yet: the program does not answer. It is tried again.");
      clearTimeout(timer);
      timer = setTimeout(() => { for (const s of [...waiting.keys()]) send(s); }, 4000);
    }
  };

  const typing = new Map();
  for (const step of form.querySelectorAll("[data-psheet-step]")) {
    const done = step.querySelector("input[type=checkbox]");
    const said = step.querySelector("input[type=text]");
    if (!done) continue;
    const now = () => {
      clearTimeout(typing.get(step));
      step.classList.toggle("is-done", done.checked);
      send(step);
    };
    done.addEventListener("change", () => { if (!done.checked && said) said.value = ""; now(); });
    if (!said) continue;
    said.addEventListener("input", () => {
      if (said.value.trim()) done.checked = true;
      clearTimeout(typing.get(step));
      typing.set(step, setTimeout(now, 700));
    });
    said.addEventListener("change", now);
    said.addEventListener("keydown", e => {
      if (e.key !== "Enter") return;
      e.preventDefault();
      now();
      const all = [...form.querySelectorAll(".psheet-tick input[type=text]")];
      const next = all[all.indexOf(said) + 1];
      if (next) next.focus();
    });
  }
})();
