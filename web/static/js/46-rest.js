// A timer for a nose that rests. It hurries nobody: the sheet can be filled in
// at any time.
(() => {
  for (const box of document.querySelectorAll("[data-rest]")) {
    const timer = box.querySelector("[data-rest-timer]");
    const start = box.querySelector("[data-rest-start]");
    const left = box.querySelector("[data-rest-left]");
    const over = box.querySelector("[data-rest-over]");
    timer.hidden = false;
    let until = 0;
    const show = () => {
      if (!until) return;
      const s = Math.ceil((until - Date.now()) / 1000);
      if (s <= 0) { until = 0; left.textContent = ""; over.textContent = "Rested: on to the next one."; start.disabled = false; return; }
      left.textContent = Math.floor(s / 60) + ":" + String(s % 60).padStart(2, "0") + " left";
    };
    start.addEventListener("click", () => {
      until = Date.now() + Number(box.dataset.rest) * 60000;
      over.textContent = "";
      start.disabled = true;
      show();
    });
    document.addEventListener("rimward:tick", show);
  }
})();
