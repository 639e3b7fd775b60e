package words

// Texts gives every text of a locale.
func Texts(l *Language) map[Key]string { return l.texts }
