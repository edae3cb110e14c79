/** What the engine writes into a record beside its sentences. */
export const engine: Readonly<Record<string, string>> = {
  "sfc32 (Doty-Humphrey, PractRand) in four lanes, started by Philox4x32-10 (Salmon et al., SC11 2011)":
    "sfc32 (Doty-Humphrey, PractRand) in vier Spuren, gestartet durch Philox4x32-10 (Salmon et al., SC11 2011)",
  "Mersenne Twister MT19937 (Matsumoto & Nishimura, ACM TOMACS 8(1), 1998; @stdlib)":
    "Mersenne-Twister MT19937 (Matsumoto & Nishimura, ACM TOMACS 8(1), 1998; @stdlib)",
  "one input at a time, the others at their estimates (JCGM 101:2008, annex B)":
    "eine Eingangsgröße nach der anderen, die übrigen bei ihren Schätzwerten (JCGM 101:2008, Anhang B)",
  "Saltelli et al. 2010, centred": "Saltelli et al. 2010, zentriert",
  "Jansen 1999": "Jansen 1999",
  "delete-one-block jackknife": "Jackknife mit Weglassen je eines Blocks",
};
