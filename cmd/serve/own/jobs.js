// Finds jobs as they are typed: the page is asked for again, and its list put in.
"use strict";
(() => {
  const box = document.getElementById("find"), list = document.getElementById("jobs");
  let timer = 0, last = box.value;
  const look = async () => {
    const typed = box.value;
    if (typed === last) return;
    last = typed;
    try {
      const answer = await fetch("/?find=" + encodeURIComponent(typed));
      const page = new DOMParser().parseFromString(await answer.text(), "text/html").getElementById("jobs");
      if (page && typed === box.value) list.replaceChildren(...page.childNodes);
    } catch { last = null; }
  };
  box.addEventListener("input", () => { clearTimeout(timer); timer = setTimeout(look, 150); });
})();
