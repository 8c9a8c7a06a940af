// picture.js: shows what was taken at the desk, and nothing else. Keeps the last picture when the server goes away.
"use strict";
(() => {
  const shown = document.getElementById("shown");
  let number = 0;
  const listen = () => {
    const news = new EventSource("/on-air/picture/events");
    news.onmessage = (event) => {
      const state = JSON.parse(event.data);
      if (state.number === number) return;
      number = state.number;
      shown.innerHTML = state.svg;
    };
    news.onerror = () => {
      if (news.readyState === EventSource.CLOSED) {
        news.close();
        setTimeout(listen, 500);
      }
    };
  };
  listen();
})();
