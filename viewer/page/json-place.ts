/**
 * Where a text stops being JSON (RFC 8259): the index of the first character that cannot belong to it, the length of
 * the text where it ends too early, or `null` where it is JSON. Browsers' own messages do not all tell.
 */
export function whereJsonBreaks(text: string): number | null {
  let at = 0;

  const take = (pattern: RegExp): boolean => {
    pattern.lastIndex = at;
    if (!pattern.test(text)) return false;
    at = pattern.lastIndex;
    return true;
  };
  const space = (): boolean => take(/[ \t\n\r]*/y);

  /** Members between brackets, each read by `member`; `at` stands behind the opening one. */
  const members = (close: RegExp, member: () => boolean): boolean => {
    space();
    if (take(close)) return true;
    for (;;) {
      space();
      if (!member()) return false;
      space();
      if (take(close)) return true;
      if (!take(/,/y)) return false;
    }
  };
  const string = (): boolean => {
    if (!take(/"/y)) return false;
    // eslint-disable-next-line no-control-regex -- JSON forbids exactly these in a string
    take(/(?:[^"\\\u0000-\u001f]|\\["\\/bfnrt]|\\u[\da-fA-F]{4})*/y);
    return take(/"/y);
  };
  const value = (): boolean => {
    space();
    if (take(/\{/y)) return members(/\}/y, () => string() && space() && take(/:/y) && value());
    if (take(/\[/y)) return members(/\]/y, value);
    return text[at] === '"'
      ? string()
      : take(/(?:true|false|null|-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?)(?![\w.])/y);
  };

  if (!value()) return at;
  space();
  return at === text.length ? null : at;
}
