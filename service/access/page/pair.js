// A code that was scanned stands behind the # of the address, which browsers send to nobody. It is filled in and taken away there.
const code = decodeURIComponent(location.hash.slice(1));
if (code) {
  document.getElementById("code").value = code;
  history.replaceState(null, "", location.pathname);
  document.querySelector("button").focus();
} else {
  document.getElementById("code").focus();
}
