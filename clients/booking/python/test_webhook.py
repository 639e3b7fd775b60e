"""python3 -m unittest, in this folder."""

import unittest

import webhook

# The example that the Standard Webhooks libraries publish in their tests.
SECRET = "whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw"
BODY = b'{"test": 2432232314}'
SENT = 1614265330
HEADERS = {
    "webhook-id": "msg_p5jXN8AQM9LWM0D4loKWxJek",
    "webhook-timestamp": str(SENT),
    "webhook-signature": "v1,g0hM9SsE+OTPJTGt/tmIKtSyZlE3uFJELVlNIOLJ1OE=",
}


class TestVerify(unittest.TestCase):
    def verify(self, body=BODY, secrets=(SECRET,), now=SENT, **headers):
        changed = {**HEADERS, **{name.replace("_", "-"): value for name, value in headers.items()}}
        return webhook.verify(secrets, changed, body, now)

    def test_the_published_signature_fits(self):
        self.assertEqual(self.verify(), {"test": 2432232314})

    def test_one_of_several_signatures_and_secrets_is_enough(self):
        other = "whsec_" + "A" * 32
        self.assertEqual(self.verify(webhook_signature="v2,x v1,AAAA " + HEADERS["webhook-signature"]), {"test": 2432232314})
        self.assertEqual(self.verify(secrets=(other, SECRET)), {"test": 2432232314})

    def test_clocks_may_differ_a_little(self):
        self.verify(now=SENT + 299)
        self.verify(now=SENT - 299)

    def test_what_is_not_proven(self):
        for name, change in {
            "another body": {"body": b'{"test": 2432232315}'},
            "another id": {"webhook_id": "msg_another"},
            "another time": {"webhook_timestamp": str(SENT + 1)},
            "another secret": {"secrets": ("whsec_" + "A" * 32,)},
            "no secret": {"secrets": ()},
            "an old message": {"now": SENT + 301},
            "a message from the future": {"now": SENT - 301},
            "no signature": {"webhook_signature": ""},
            "a scheme that is not known": {"webhook_signature": HEADERS["webhook-signature"].replace("v1", "v2")},
            "no id": {"webhook_id": ""},
            "a time that is none": {"webhook_timestamp": "now"},
            "letters that are not ASCII": {"webhook_signature": "v1,\u00e9"},
        }.items():
            with self.subTest(name), self.assertRaises(webhook.NotProven):
                self.verify(**change)


if __name__ == "__main__":
    unittest.main()
