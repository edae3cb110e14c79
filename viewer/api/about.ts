/** `GET /api/about` */
export interface About {
  readonly name: "trialband";
  readonly version: string;
  readonly node: string;
  readonly workers: number;
}
