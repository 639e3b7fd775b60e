package webhook

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// published is the example of the Standard Webhooks libraries (webhook_test of each of them).
const published Secret = "whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw"

func TestPublishedSignature(t *testing.T) {
	got, err := signatures([]Secret{published}, "msg_p5jXN8AQM9LWM0D4loKWxJek", time.Unix(1614265330, 0), []byte(`{"test": 2432232314}`))
	require.NoError(t, err)
	assert.Equal(t, "v1,g0hM9SsE+OTPJTGt/tmIKtSyZlE3uFJELVlNIOLJ1OE=", got)
}

func TestTwoSecretsGiveTwoSignatures(t *testing.T) {
	got, err := signatures([]Secret{NewSecret(), published}, "msg_p5jXN8AQM9LWM0D4loKWxJek", time.Unix(1614265330, 0), []byte(`{"test": 2432232314}`))
	require.NoError(t, err)
	parts := strings.Split(got, " ")
	require.Len(t, parts, 2)
	assert.Equal(t, "v1,g0hM9SsE+OTPJTGt/tmIKtSyZlE3uFJELVlNIOLJ1OE=", parts[1])
	assert.NotEqual(t, parts[0], parts[1])
}

func TestSecretsThatCannotBe(t *testing.T) {
	for _, text := range []Secret{
		"", "whsec_", "MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw", "whsec_MfKQ9r8G", "whsec_not base64 at all, but long enough",
		Secret("whsec_" + strings.Repeat("AAAA", 22)),
	} {
		err := text.Check()
		require.ErrorIs(t, err, ErrSecret)
		if len(text) > len("whsec_") {
			assert.NotContains(t, err.Error(), string(text), "an error must not give a secret away")
		}
	}
	require.NoError(t, published.Check())
	_, err := signatures(nil, "id", time.Now(), nil)
	require.ErrorContains(t, err, "no secret")
}

func TestSecretsStayOutOfLogs(t *testing.T) {
	secret := NewSecret()
	require.NoError(t, secret.Check())
	assert.NotEqual(t, secret, NewSecret())
	for _, form := range []string{"%v", "%s", "%+v", "%#v"} {
		assert.NotContains(t, fmt.Sprintf(form, Endpoint{Secrets: []Secret{secret}}), string(secret)[len("whsec_"):], form)
	}
}
