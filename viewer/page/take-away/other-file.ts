/** A file that is no picture or table of the panel: the whole budget, the trials. */
export interface OtherFile {
  readonly what: string;
  /** Each form it is to be had in: its name, and where the server has it or how it is made. */
  readonly forms: readonly { readonly label: string; readonly from: string | (() => Promise<void>) }[];
}
