/**
 * The one script of the page that plays: it makes the film out of the bytes in the page, and takes it to the film time of
 * what was touched. It asks nothing of the network. Element ids and data keys are those of `playingHtml.tsx`. Plain
 * JavaScript of 2017, so that an old phone runs it.
 *
 * `data-runs` of the chart: [film start, film end, ride start, ride end] in s, of each stretch in which the picture runs
 * or stands; `data-drawn`: where the ride's first and last second lie across the drawing, as shares of its width.
 */
export const PLAYING_SCRIPT = `"use strict";
(() => {
  const film = document.getElementById("film");
  const chart = document.getElementById("chart");
  const needle = document.getElementById("needle");
  const parts = Array.from(document.querySelectorAll("[data-film]"));
  const text = document.getElementById("film-bytes").textContent.trim();
  const pieces = [];
  for (let at = 0; at < text.length; at += 1048576) {
    const letters = atob(text.slice(at, at + 1048576));
    const bytes = new Uint8Array(letters.length);
    for (let i = 0; i < letters.length; i += 1) bytes[i] = letters.charCodeAt(i);
    pieces.push(bytes);
  }
  document.getElementById("film-bytes").remove();
  film.src = URL.createObjectURL(new Blob(pieces, { type: "video/mp4" }));

  const goTo = (filmS) => {
    film.currentTime = filmS + 0.001;
    const played = film.play();
    if (played) played.catch(() => undefined);
  };
  for (const part of parts) part.addEventListener("click", () => goTo(Number(part.dataset.film)));

  const runs = chart ? JSON.parse(chart.dataset.runs) : [];
  const drawn = chart ? JSON.parse(chart.dataset.drawn) : null;
  if (chart) {
    chart.addEventListener("click", (event) => {
      const box = chart.getBoundingClientRect();
      const share = ((event.clientX - box.left) / box.width - drawn.left) / (drawn.right - drawn.left);
      const rideS = drawn.startS + Math.min(1, Math.max(0, share)) * (drawn.endS - drawn.startS);
      let best = null;
      for (const [fromS, toS, rideFromS, rideToS] of runs) {
        const away = Math.max(0, rideFromS - rideS, rideS - rideToS);
        const into = away === 0 && rideToS > rideFromS ? (rideS - rideFromS) / (rideToS - rideFromS) : 0;
        const filmS = Math.min(fromS + into * (toS - fromS), Math.max(fromS, toS - 0.05));
        if (best === null || away < best.away) best = { away, filmS };
      }
      if (best) goTo(best.filmS);
    });
  }

  const show = () => {
    const now = film.currentTime;
    let current = null;
    for (const part of parts) if (part.dataset.part && Number(part.dataset.film) <= now + 0.01) current = part;
    for (const part of parts)
      if (part === current) part.setAttribute("aria-current", "true");
      else part.removeAttribute("aria-current");
    if (!chart) return;
    const run = runs.find(([fromS, toS]) => now >= fromS && now < toS);
    needle.style.display = run ? "block" : "none";
    if (!run) return;
    const [fromS, toS, rideFromS, rideToS] = run;
    const rideS = rideFromS + ((now - fromS) / (toS - fromS)) * (rideToS - rideFromS);
    const share = (rideS - drawn.startS) / (drawn.endS - drawn.startS);
    needle.style.left = 100 * (drawn.left + share * (drawn.right - drawn.left)) + "%";
  };
  for (const name of ["timeupdate", "seeked", "loadedmetadata"]) film.addEventListener(name, show);
  const follow = () => {
    show();
    if (!film.paused) requestAnimationFrame(follow);
  };
  film.addEventListener("play", follow);
})();
`;
