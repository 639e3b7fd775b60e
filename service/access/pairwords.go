package access

import (
	"errors"
	"fmt"

	"golang.org/x/text/language"
)

// pairWords are all texts of the pairing page in one language. Each field is what stands in the place of its name; those with a
// verb of fmt take a number.
type pairWords struct {
	// Lang is the language as HTML names it.
	Lang string

	Title, Intro, Code, Name, Example, Pair string

	RightService, Fingerprint, SentWith string
	PoorNetwork, KeepsPage, Certificate string
	Install                             string

	tooMany, unreadable, wrongCode, longName, badName, failed string
}

func englishPair() pairWords {
	return pairWords{
		Lang:  "en",
		Title: "Pair this device",
		Intro: "The service's screen shows a code of eight letters and digits. It is good once, for ten minutes.",
		Code:  "Code", Name: "Name of this device", Example: "phone in bay 2", Pair: "Pair",

		RightService: "Is this the right service?",
		Fingerprint: "The certificate that your browser shows must have the fingerprint (SHA-256) that stands on the service's own screen. " +
			"If it is another, close this page: somebody else is answering.",
		SentWith:    "This page was sent with the certificate",
		PoorNetwork: "Is the network poor in the bay?",
		KeepsPage:   "A phone keeps the page and what you enter through a dead spot only if it trusts the service's certificate. Load it here:",
		Certificate: "the certificate",
		Install:     "Let the phone's settings install it as one of an authority. It vouches for this machine and for nothing else.",

		tooMany:    "Too many codes were tried. Wait %d seconds.",
		unreadable: "This form cannot be read. Type the code again.",
		wrongCode:  "This code is wrong, used or has run out; on the service's machine, glossladder key pair shows a new one.",
		longName:   "The name has %d characters; at most %d are kept.",
		badName:    "The name has characters that do not print; leave them out.",
		failed:     "The service cannot pair this device now. Its own log says why; try again then.",
	}
}

func germanPair() pairWords {
	return pairWords{
		Lang:  "de",
		Title: "Dieses Gerät koppeln",
		Intro: "Der Bildschirm des Dienstes zeigt einen Code aus acht Buchstaben und Ziffern. Er gilt einmal, zehn Minuten lang.",
		Code:  "Code", Name: "Name dieses Geräts", Example: "Telefon in Box 2", Pair: "Koppeln",

		RightService: "Ist das der richtige Dienst?",
		Fingerprint: "Das Zertifikat, das der Browser zeigt, muss den Fingerabdruck (SHA-256) haben, der auf dem Bildschirm des Dienstes selbst steht. " +
			"Ist es ein anderer, diese Seite schließen: Dann antwortet jemand anderes.",
		SentWith:    "Diese Seite kam mit dem Zertifikat",
		PoorNetwork: "Ist das Netz in der Werkstatt schlecht?",
		KeepsPage: "Ein Telefon behält die Seite und die Eingaben in einem Funkloch nur, wenn es dem Zertifikat des Dienstes vertraut. " +
			"Hier laden:",
		Certificate: "das Zertifikat",
		Install:     "In den Einstellungen des Telefons als Zertifikat einer Zertifizierungsstelle installieren. Es bürgt für diesen Rechner und für nichts sonst.",

		tooMany:    "Es wurden zu viele Codes versucht. %d Sekunden warten.",
		unreadable: "Dieses Formular ist nicht lesbar. Den Code noch einmal eingeben.",
		wrongCode:  "Dieser Code ist falsch, verbraucht oder abgelaufen; auf dem Rechner des Dienstes zeigt „glossladder key pair“ einen neuen.",
		longName:   "Der Name hat %d Zeichen; höchstens %d werden behalten.",
		badName:    "Der Name enthält Zeichen, die nicht darstellbar sind; bitte weglassen.",
		failed:     "Der Dienst kann dieses Gerät jetzt nicht koppeln. Sein eigenes Protokoll sagt, warum; dann noch einmal versuchen.",
	}
}

// pairIn gives the texts in the language that a browser prefers of those there are (RFC 9110, section 12.5.4); English if it names
// none of them, or says nothing that can be read.
func pairIn(acceptLanguage string) pairWords {
	tags, weights, err := language.ParseAcceptLanguage(acceptLanguage)
	if err != nil {
		return englishPair()
	}
	for i, tag := range tags { // the most wanted first
		if weights[i] == 0 {
			continue // not wanted at all
		}
		switch base, _ := tag.Base(); base.String() {
		case "de":
			return germanPair()
		case "en":
			return englishPair()
		}
	}
	return englishPair()
}

// refusal says why a device was not paired.
func (w pairWords) refusal(err error) string {
	if errors.Is(err, ErrWrongCode) {
		return w.wrongCode
	}
	if name, ok := errors.AsType[*nameError](err); ok {
		if name.long() {
			return fmt.Sprintf(w.longName, name.count, longestName)
		}
		return w.badName
	}
	return w.failed
}
