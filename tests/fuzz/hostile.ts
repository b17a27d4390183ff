/** Texts written to become something else than text: markup, a formula, a path, an object's own name. */
export const hostile: readonly string[] = [
  `<script>window.hit=1;alert(1)</script>`,
  `<img src=x onerror=alert(1)>`,
  `"><svg onload=alert(1)><a href="javascript:alert(1)">`,
  `' onmouseover='alert(1)`,
  `</style></title></option></select><iframe src=https://pages.example>`,
  `]]><!-- \${alert(1)} {{x}} \`\\u003cb-x\\u003e`,
  `../../../../etc/passwd`,
  `__proto__`,
  `constructor`,
  `=HYPERLINK("http://pages.example","x")`,
  `@SUM(1+1)*cmd|' /C x'!A0`,
  `\u202e gnp.exe`,
];
