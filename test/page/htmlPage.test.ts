import { createElement } from "react";
import { expect, test } from "vitest";
import { htmlPage, markup } from "../../main/page/htmlPage.tsx";

test("figures stay with their units wherever text stands, after an empty element too", () => {
  const text = createElement("p", null, "1 h 40 min", createElement("br"), "at 230 W");
  expect(markup(text)).toBe("<p>1\u00a0h\u00a040\u00a0min<br>at 230\u00a0W</p>");
});

test("text is text: escaped, without control characters, whatever it says", () => {
  const hostile = `<b title="x">&amp; 'y' /> 5 km\u0000\u0007\uffff`;
  expect(markup(createElement("p", { title: hostile }, hostile))).toBe(
    `<p title="&lt;b title=&quot;x&quot;&gt;&amp;amp; &#x27;y&#x27; /&gt; 5 km">` +
      `&lt;b title=&quot;x&quot;&gt;&amp;amp; &#x27;y&#x27; /&gt; 5\u00a0km</p>`,
  );
});

test("the style sheet is left as it is, a font's name in quotes among it", () => {
  const html = htmlPage("en", "12 km </title><script>", null, [{ weight: 500, woff2Base64: "AAAA" }]);
  expect(html).toContain('src:url(data:font/woff2;base64,AAAA) format("woff2")}');
  expect(html).toContain("margin:0 0 1rem");
  expect(html).toContain("<title>12\u00a0km &lt;/title&gt;&lt;script&gt;</title>");
});
