/** A row of numbers to be read one after the other. */
export class Numbers {
  private readonly list: readonly number[];
  private at = 0;

  /** All numbers of a text; brackets, commas and white space part them. Throws where something is no whole number. */
  constructor(text: string) {
    const words = text.split(/[\s,[\]]+/).filter((word) => word !== '');
    this.list = words.map((word) => {
      const value = Number(word);
      if (!Number.isInteger(value)) throw new Error(`"${word}" is no whole number`);
      return value;
    });
  }

  /** Throws at the end of the text. */
  next(): number {
    const value = this.list[this.at++];
    if (value === undefined) throw new Error('the file ends too early');
    return value;
  }

  take(count: number): number[] {
    return Array.from({ length: count }, () => this.next());
  }

  /** Throws unless all were read. */
  end(): void {
    if (this.at < this.list.length) throw new Error(`${this.list.length - this.at} numbers too many at the end`);
  }
}
