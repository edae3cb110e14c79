/** What a dossier tells a person who has nothing else, in both languages of the reports. */
export const HOW_TO_VERIFY = `How to verify this dossier
==========================

With Trialband of the version that dossier.json names:

    npx trialband verify DOSSIER.zip

It checks the payload against its digests, the record against its seal and, if there is one, its signature, the study and
the reports against the record, and runs the study again: every figure must come out the same. --key FILE states whose
signature it must be.

Without Trialband:

1. Unpack the file. It is a bag as RFC 8493 (BagIt 1.0) describes it, which any BagIt tool validates. By hand:
       sha256sum --check manifest-sha256.txt tagmanifest-sha256.txt
2. record.json holds the study in full, every figure with its standard error, the seed, the versions and the digests of
   the sources. report-en.html and report-de.html show the same for a reader.
3. evidence/ holds the logs and certificates that the study rests on, each under its SHA-256 digest, which record.json
   repeats under "evidence" of the input. dossier.json names those that were not at hand.
4. A digest shows that nothing was altered since it was made, not who made it: for that, compare the record's digest with
   one that you have from the laboratory by another way, or ask for its signature.


Wie dieses Dossier zu prüfen ist
================================

Mit Trialband in der Version, die dossier.json nennt:

    npx trialband verify DOSSIER.zip

Geprüft werden die Nutzdaten gegen ihre Prüfsummen, der Datensatz gegen sein Siegel und, wenn es eine gibt, seine
Unterschrift, die Studie und die Berichte gegen den Datensatz; dann wird die Studie noch einmal gerechnet: Jeder Wert muss
gleich herauskommen. --key DATEI legt fest, von wem die Unterschrift sein muss.

Ohne Trialband:

1. Die Datei entpacken. Sie ist ein "bag" nach RFC 8493 (BagIt 1.0), den jedes BagIt-Werkzeug prüft. Von Hand:
       sha256sum --check manifest-sha256.txt tagmanifest-sha256.txt
2. record.json enthält die ganze Studie, jeden Wert mit seinem Standardfehler, den Startwert, die Versionen und die
   Prüfsummen der Quellen. report-en.html und report-de.html zeigen dasselbe für Leser.
3. evidence/ enthält die Protokolle und Kalibrierscheine, auf denen die Studie beruht, jede Datei unter ihrer
   SHA-256-Prüfsumme, die in record.json bei der Eingangsgröße unter "evidence" steht. dossier.json nennt jene, die nicht
   zur Hand waren.
4. Eine Prüfsumme zeigt, dass seit ihrer Bildung nichts verändert wurde, nicht, wer sie gebildet hat: Dafür ist die
   Prüfsumme des Datensatzes mit einer zu vergleichen, die das Labor auf anderem Wege nennt, oder seine Unterschrift zu
   verlangen.
`;
