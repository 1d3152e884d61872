// Holds a pour that is being typed against what its suppliers advise, by
// asking the server, which is the only one that compares.
(() => {
  const out = document.querySelector("[data-guidance]");
  const form = document.querySelector("form.form");
  if (!out || !form) return;
  const asked = ["wax", "fragrance", "load", "load_basis", "heated_to", "oil_at", "poured_at"];
  let timer, last = "";
  const ask = async () => {
    const q = new URLSearchParams();
    for (const name of asked) if (form.elements[name]) q.set(name, form.elements[name].value);
    const text = q.toString();
    if (text === last) return;
    last = text;
    try {
      const r = await fetch(out.dataset.guidance + "?" + text);
      if (r.ok && text === last) out.innerHTML = await r.text();
    } catch (e) { last = ""; /* the server is away; it will say so on saving */ }
  };
  const soon = () => { clearTimeout(timer); timer = setTimeout(ask, 300); };
  form.addEventListener("input", soon);
  form.addEventListener("change", soon);
  soon(); // a draft may have filled the form
})();
