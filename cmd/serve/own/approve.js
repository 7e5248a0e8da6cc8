// The name that this device was told, for the form of an approval; and one press sends once.
"use strict";
(() => {
  const form = document.getElementById("approve"), by = document.getElementById("by");
  if (!form) return;
  try { by.value ||= JSON.parse(localStorage.getItem("by")) || ""; } catch { /* it is asked for */ }
  form.addEventListener("submit", () => {
    try { localStorage.setItem("by", JSON.stringify(by.value.trim())); } catch { /* it is asked for again */ }
  });
})();
