// Plays an attempt: each piece of the drawing says in data-of from which moment to which it shows.
(function () {
  "use strict";
  document.querySelectorAll(".replay").forEach(function (box) {
    var pieces = Array.prototype.map.call(box.querySelectorAll("g.piece[data-of]"), function (node) {
      return { node: node, spans: node.getAttribute("data-of").split(" ").map(Number) };
    });
    var lines = box.querySelector("template.steps").content.querySelectorAll("li");
    var last = lines.length - 1;
    var slider = box.querySelector("input[type=range]");
    var now = box.querySelector(".now");
    var play = box.querySelector(".play");
    var timer = 0;
    var at = 0;

    function shows(spans, moment) {
      for (var i = 0; i < spans.length; i += 2) {
        if (spans[i] <= moment && moment < spans[i + 1]) { return true; }
      }
      return false;
    }
    function go(moment) {
      at = Math.max(0, Math.min(last, moment));
      pieces.forEach(function (piece) { piece.node.style.display = shows(piece.spans, at) ? "" : "none"; });
      slider.value = String(at);
      slider.setAttribute("aria-valuetext", lines[at].textContent.trim());
      now.replaceChildren.apply(now, Array.prototype.map.call(lines[at].childNodes, function (node) {
        return node.cloneNode(true);
      }));
      box.setAttribute("data-moment", String(at));
    }
    function stop() {
      window.clearInterval(timer);
      timer = 0;
      play.textContent = play.getAttribute("data-play");
    }
    function start() {
      if (at === last) { go(0); }
      play.textContent = play.getAttribute("data-pause");
      timer = window.setInterval(function () {
        if (at === last) { stop(); } else { go(at + 1); }
      }, 250);
    }
    play.addEventListener("click", function () { if (timer) { stop(); } else { start(); } });
    box.querySelector(".back").addEventListener("click", function () { stop(); go(at - 1); });
    box.querySelector(".on").addEventListener("click", function () { stop(); go(at + 1); });
    box.querySelector(".start").addEventListener("click", function () { stop(); go(0); });
    box.querySelector(".end").addEventListener("click", function () { stop(); go(last); });
    slider.max = String(last);
    slider.addEventListener("input", function () { stop(); go(Number(slider.value)); });
    box.classList.add("ready");
    go(last);
  });
})();
