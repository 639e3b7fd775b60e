package rulefolder

import "fmt"

// StaleError says that a file, or with an empty Name some file of the folder, is not the one that was read.
type StaleError struct {
	Name string
	Etag string // as it is now
}

func (e *StaleError) Error() string {
	if e.Name == "" {
		return "a file of the folder has changed since it was read; list the files again and look whether your change still fits"
	}
	return e.Name + " has changed since it was read; read it again, put your change into it, and send it with the new etag"
}

// NoFileError says that there is no file of that name.
type NoFileError struct {
	Name string
	Near string // a file that may have been meant, or empty
}

func (e *NoFileError) Error() string {
	says := "there is no file " + e.Name
	if e.Near != "" {
		says += "; did you mean " + e.Near + "?"
	}
	return says
}

// ExistsError says that a new file would take the place of another.
type ExistsError struct {
	Name string
	Etag string // of the file that is there
}

func (e *ExistsError) Error() string {
	return fmt.Sprintf("there is a file %s already; read it, and send your change with its etag", e.Name)
}

// NameError says that a file cannot have that name, or that it is named twice in one edit.
type NameError struct {
	Name  string
	Twice bool
}

func (e *NameError) Error() string {
	if e.Twice {
		return fmt.Sprintf("%s stands in this edit twice; say once what it shall be", e.Name)
	}
	return fmt.Sprintf("%q is no name of a rule file; a name is start.yaml, cases/start.yaml or NOTES.md", e.Name)
}

// WriteError says that the folder cannot be written to. Nothing was changed.
type WriteError struct {
	Folder string
	Cause  error
}

func (e *WriteError) Error() string {
	return fmt.Sprintf("the folder %s cannot be written to: %v", e.Folder, e.Cause)
}

func (e *WriteError) Unwrap() error { return e.Cause }
